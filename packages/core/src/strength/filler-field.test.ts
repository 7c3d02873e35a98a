import { describe, expect, it } from 'vitest';
import { ellipseNodes } from '../../../../test/fixtures/tee-reference.js';
import { reducePlate } from '../host/index.js';
import { createStressModel } from '../stress/index.js';
import { createFillerField, type PlaneStress } from './filler-field.js';

const model = reducePlate({
  kind: 'plate',
  material: {
    E1: 3500,
    E2: 3500,
    nu12: 0.35,
    nu23: 0.35,
    G12: 3500 / 2.7,
    alpha1: 0,
    alpha2: 0,
    transverseTension: 60,
    interlaminarShear: 60,
  },
});

function fieldAround(a: number, b: number, sx: number, sy: number, txy: number, count: number) {
  const nodes = ellipseNodes(a, b, [0.3, -0.2], 0, count);
  const stress = createStressModel(model, { farField: { sx, sy, txy } }, []).evaluate(nodes, false);
  const field = createFillerField(model.basis, count, 1);
  const coefficients = Float64Array.of((sx + sy) / 4, (sy - sx) / 2, 0, txy);
  field.take([{ nodes, slopes: [stress.slopes[0]!], inner: { x: 0.3, y: -0.2 }, onAxis: false }], [coefficients]);
  return (x: number, y: number) => {
    const out: PlaneStress = { xx: 0, yy: 0, xy: 0 };
    field.stressAt(0.3 + x, -0.2 + y, [out]);
    return out;
  };
}

describe('the field around a channel', () => {
  it('is that of Kirsch around a circle, from the edge to far away', () => {
    // Kirsch, Z. VDI 42 (1898) 797-807, unit tension along x, radius 1 (as in Timoshenko & Goodier, Theory of Elasticity, art. 35).
    const at = fieldAround(1, 1, 1, 0, 0, 64);
    for (const r of [1 + 1e-9, 1.001, 1.02, 1.2, 3, 40])
      for (const angle of [0.1, 0.8, 1.5, 2.9]) {
        const { xx, yy, xy } = at(r * Math.cos(angle), r * Math.sin(angle));
        const [c, s] = [Math.cos(angle), Math.sin(angle)];
        const radial = xx * c * c + yy * s * s + 2 * xy * c * s;
        const hoop = xx * s * s + yy * c * c - 2 * xy * c * s;
        const shear = (yy - xx) * c * s + xy * (c * c - s * s);
        const q = 1 / r ** 2;
        expect(radial).toBeCloseTo((1 - q) / 2 + ((1 - 4 * q + 3 * q * q) / 2) * Math.cos(2 * angle), 9);
        expect(hoop).toBeCloseTo((1 + q) / 2 - ((1 + 3 * q * q) / 2) * Math.cos(2 * angle), 9);
        expect(shear).toBeCloseTo(-((1 + 2 * q - 3 * q * q) / 2) * Math.sin(2 * angle), 9);
      }
  });

  it('decays ahead of the tip of a slender ellipse as in the closed form', () => {
    // Muskhelishvili's elliptic hole, z = c (zeta + m / zeta), under tension across its long axis:
    // phi = c/4 (zeta - (2 + m) / zeta), so that sxx + syy = 4 phi'(zeta) / z'(zeta) on that axis (from memory; 1 + 2 a/b at the tip).
    const [a, b] = [2, 0.5];
    const at = fieldAround(a, b, 0, 1, 0, 128);
    const c = (a + b) / 2;
    const m = (a - b) / (a + b);
    for (const distance of [1e-6, 0.01, 0.1, 0.5, 3]) {
      const x = a + distance;
      const zeta = (x + Math.sqrt(x * x - 4 * c * c * m)) / (2 * c);
      const z2 = zeta * zeta;
      const { xx, yy } = at(x, 0);
      expect(xx + yy).toBeCloseTo((z2 + 2 + m) / (z2 - m), 6);
    }
  });
});

describe('the field around two channels', () => {
  const count = 96;
  const nodes = ellipseNodes(1, 0.7, [1.5, 0.1], 0.3, count);

  it.each([
    ['symmetric', { sx: 1, sy: 0.4, txy: 0 }, 1],
    ['antisymmetric', { sx: 0, sy: 0, txy: 1 }, -1],
  ] as const)(
    'leaves both edges free, has their hoop stress there and ends as what acts far away: %s',
    (_, far, sign) => {
      const stress = createStressModel(model, { farField: far }, [], { channels: { number: 2 } }).evaluate(
        nodes,
        false,
      );
      const field = createFillerField(model.basis, count, 1);
      const { sx, sy, txy } = far;
      const coefficients = Float64Array.of((sx + sy) / 4, (sy - sx) / 2, 0, txy);
      field.take(stress.each, [coefficients], [sign]);
      const out: PlaneStress = { xx: 0, yy: 0, xy: 0 };
      for (const side of [1, -1])
        for (const j of [3, 40, 47, 80]) {
          const [dx, dy] = [side * nodes.dx[j]!, nodes.dy[j]!];
          const speed = Math.hypot(dx, dy);
          const [c, s] = [dx / speed, dy / speed];
          // A hair off the edge, to the right of its tangent; of the mirror image to the left.
          const off = 1e-7 * side;
          field.stressAt(side * nodes.x[j]! + off * s, nodes.y[j]! - off * c, [out]);
          const { xx, yy, xy } = out;
          expect(xx * s * s + yy * c * c - 2 * xy * c * s).toBeCloseTo(0, 5);
          expect((yy - xx) * c * s + xy * (c * c - s * s)).toBeCloseTo(0, 5);
          const hoop = stress.hoop[0]![j]! * (side === 1 ? 1 : sign);
          expect(xx * c * c + yy * s * s + 2 * xy * c * s).toBeCloseTo(hoop, 4);
        }
      field.stressAt(2000, 1500, [out]);
      expect(out.xx).toBeCloseTo(sx, 4);
      expect(out.yy).toBeCloseTo(sy, 4);
      expect(out.xy).toBeCloseTo(txy, 4);
    },
  );
});
