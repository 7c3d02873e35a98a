import { describe, expect, it } from 'vitest';
import { reducePlate, teeFamilies } from '../host/index.js';
import { createStressModel } from '../stress/index.js';
import { createFamily } from './create-family.js';
import type { Border, Curve, OutlineRoom } from './family.js';
import { fitCurvature } from './fit-curvature.js';
import { createOutlineMeasure, measureOutline } from './measure.js';
import { createCurveNodes } from './nodes.js';
import { fitPoints } from './points.js';
import { given } from './test/given.js';

const room: OutlineRoom = {
  mirror: true,
  xMin: -3,
  xMax: 3,
  yMin: 0.12,
  yMax: 3.6,
  edgeRadius: 0.12,
  families: teeFamilies(5),
};
const nowhere: Border = { distance: () => Number.POSITIVE_INFINITY };
const resin = { E1: 3500, E2: 3500, nu12: 0.35, nu23: 0.35, G12: 3500 / 2.7, alpha1: 60e-6, alpha2: 60e-6 };
const sheet = { kind: 'plate', material: { ...resin, transverseTension: 60, interlaminarShear: 40 } } as const;
const model = reducePlate(sheet);

/** Area, and the peaks of an infinite sheet under unit tension along y, along x, and both. */
function figures(curve: Curve, count: number): number[] {
  const nodes = createCurveNodes(count);
  curve.place(nodes);
  const measure = createOutlineMeasure();
  measureOutline(nodes, nowhere, measure);
  const peaks = [
    [0, 1],
    [1, 0],
    [1, 1],
  ].map(([sx, sy]) => {
    const loads = { farField: { sx: sx!, sy: sy!, txy: 0 } };
    const stress = createStressModel(model, loads, [{ name: 'far', factors: { farField: 1 } }]);
    return stress.evaluate(nodes, curve.mirror, 'cases').worst;
  });
  return [measure.area, ...peaks];
}

const outlines: [string, Curve, number][] = [
  ['ellipse', given(createFamily('ellipse', room), { y: 1.2, width: 2, height: 1 }), 24],
  ['teardrop', given(createFamily('teardrop', room), { y: 1.2, width: 1.4, height: 1.8, taper: 0.4 }), 24],
  ['spline', given(createFamily('spline', room), { y: 1.2, size: 0.8, stretch: 0.5, wave2: 0.06, wave3: -0.04 }), 24],
  [
    'free ellipse',
    given(createFamily('ellipse', { ...room, mirror: false }), { x: 0.2, y: 1.2, width: 2, height: 1, turn: 20 }),
    48,
  ],
];

describe('fitCurvature', () => {
  it.each(outlines)('has the peaks of the %s to 0.3 per cent, with few nodes', (_, curve, pieces) => {
    const { outline, values } = fitCurvature(curve, pieces, 0.12)!;
    const fitted: Curve = { mirror: curve.mirror, place: (nodes) => outline.place(values, nodes) };
    const wanted = figures(curve, 256);
    for (const count of [96, 192])
      figures(fitted, count).forEach((value, i) => {
        expect(Math.abs(value / wanted[i]! - 1)).toBeLessThan(0.003);
      });
  });

  it('gives the fitted ellipse of 2 : 1 the stress concentrations of Inglis, 1 + 2 a/b (Trans. Inst. Naval Arch. 55, 1913)', () => {
    const { outline, values } = fitCurvature(outlines[0]![1], 24, 0.12)!;
    const [, across, along] = figures({ mirror: true, place: (nodes) => outline.place(values, nodes) }, 128);
    expect(across).toBeCloseTo(5, 2);
    expect(along).toBeCloseTo(2, 2);
  });

  it('rounds what is sharper than allowed, and still closes', () => {
    const sharp = given(createFamily('ellipse', { ...room, edgeRadius: 0.01 }), { y: 0.6, width: 2, height: 0.5 });
    const { outline, values } = fitCurvature(sharp, 32, 0.12)!;
    const nodes = createCurveNodes(256);
    outline.place(values, nodes);
    const measure = createOutlineMeasure();
    measureOutline(nodes, nowhere, measure);
    expect(measure.edgeRadius).toBeGreaterThan(0.12 * (1 - 5e-4));
    expect(measure.simple).toBe(true);
  });

  it('fits outlines given as points', () => {
    const points = Array.from({ length: 200 }, (_, i): [number, number] => {
      const at = (2 * Math.PI * (i + 0.5)) / 200 - Math.PI / 2;
      return [1.2 * Math.cos(at), 1.3 + 0.7 * Math.sin(at)];
    });
    const curve = fitPoints(points);
    const { outline, values } = fitCurvature(curve, 24, 0.12)!;
    const fitted = figures({ mirror: curve.mirror, place: (nodes) => outline.place(values, nodes) }, 128);
    expect(fitted[0]! / (Math.PI * 1.2 * 0.7)).toBeCloseTo(1, 4);
    expect(fitted[1]! / (1 + 2.4 / 0.7)).toBeCloseTo(1, 2);
  });
});
