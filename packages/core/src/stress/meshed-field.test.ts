import { expect, it } from 'vitest';
import { createCurveNodes, outlineOf } from '../outline/index.js';
import { meshedField } from './meshed-field.js';

const ply = {
  ...{ E1: 126000, E2: 11000, nu12: 0.28, nu23: 0.4, G12: 6600 },
  ...{ alpha1: -1e-6, alpha2: 26e-6, transverseTension: 48, interlaminarShear: 79 },
};

it('a meshed field is that of Kirsch beside a circle in tension', () => {
  const nodes = createCurveNodes(128);
  const circle = { family: 'ellipse', parameters: { y: 0, width: 1, height: 1 } };
  outlineOf(circle, { xMin: -2, xMax: 2, yMin: -2, yMax: 2, mirror: true, edgeRadius: 0.1 }).place(nodes);
  const { columns, rows, cases, least, shear } = meshedField(
    { kind: 'plate', material: ply } as never,
    { farField: { sx: 1, sy: 0, txy: 0 } },
    [{ name: 'pulled', factors: { farField: 2 } }],
    nodes,
    { box: { xMin: -1, xMax: 1, yMin: -1, yMax: 1 }, columns: 200 },
  );
  expect([columns, rows]).toEqual([200, 200]);
  const at = (column: number, row: number) => cases.pulled![row * columns + column]!;
  // Hoop stress above the circle, sigma / 2 (2 + a2/r2 + 3 a4/r4): Timoshenko & Goodier, Theory of Elasticity, sec. 35.
  for (const row of [10, 25, 40, 48]) {
    const [x, y] = [0.005, 1 - (row + 0.5) / 100];
    const ratio = 0.25 / (x * x + y * y);
    expect(at(100, row) / (2 + ratio + 3 * ratio * ratio)).toBeCloseTo(1, 2);
  }
  // Radial stress there, 3 sigma / 2 (a2/r2 - a4/r4), and half of the difference: the same section.
  for (const row of [10, 25, 40]) {
    const [x, y] = [0.005, 1 - (row + 0.5) / 100];
    const ratio = 0.25 / (x * x + y * y);
    const radial = 3 * (ratio - ratio * ratio);
    const hoop = 2 + ratio + 3 * ratio * ratio;
    const cell = row * columns + 100;
    // Shares of the largest stress there, as above.
    expect((least.pulled![cell]! - radial) / hoop).toBeCloseTo(0, 2);
    expect((shear.pulled![cell]! - (hoop - radial) / 2) / hoop).toBeCloseTo(0, 2);
  }
  expect(at(100, 100)).toBeNaN();
});
