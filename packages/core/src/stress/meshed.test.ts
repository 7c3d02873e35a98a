import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.js';
import type { PlateHost, TeeJoint } from '../host/index.js';
import { layupFromPlies } from '../material/index.js';
import { type CurveNodes, createCurveNodes, nodeParameter } from '../outline/index.js';
import { meshedStress } from './meshed.js';

const ply = {
  ...{ E1: 126000, E2: 11000, nu12: 0.28, nu23: 0.4, G12: 6600 },
  ...{ alpha1: -1e-6, alpha2: 26e-6, transverseTension: 48, interlaminarShear: 79 },
};
const plate: PlateHost = { kind: 'plate', material: ply };
const tee: TeeJoint = {
  kind: 'tee',
  bendRadius: 5,
  overlaminate: layupFromPlies([45, -45, 0, 90, 90, 0, -45, 45], 0.25, ply),
  webHeight: 25,
  footLength: 20,
  skinHalfSpan: 40,
  skin: [{ thickness: 3, angle: 'quasi-isotropic', ply }],
  filler: ply,
  support: 'simple',
};

function ellipse(a: number, b: number, x0: number, y0: number, turn = 0, count = 128): CurveNodes {
  const nodes = createCurveNodes(count);
  const [c, t] = [Math.cos(turn), Math.sin(turn)];
  for (let j = 0; j < count; j++) {
    const s = nodeParameter(j, count);
    const [x, y, dx, dy] = [a * Math.cos(s), b * Math.sin(s), -a * Math.sin(s), b * Math.cos(s)];
    nodes.x[j] = x0 + c * x - t * y;
    nodes.y[j] = y0 + t * x + c * y;
    nodes.dx[j] = c * dx - t * dy;
    nodes.dy[j] = t * dx + c * dy;
    nodes.ddx[j] = -(c * x - t * y);
    nodes.ddy[j] = -(t * x + c * y);
  }
  return nodes;
}

const coarse = { coarseness: 2 };

describe('meshedStress', () => {
  it('gives the same stress at absurd scales', { tags: 'long' }, () => {
    const peak = (scale: number) => {
      const loads = { farField: { sx: 1, sy: 0.3, txy: 0.2 } };
      return meshedStress(plate, loads, [], ellipse(0.5 * scale, 0.3 * scale, 0, 0, 0.2), coarse).loads.farField!.peak;
    };
    // Powers of two scale without rounding, so that even the meshes are equal.
    for (const scale of [2 ** -10, 2 ** 10]) expect(Math.abs(peak(scale) / peak(1) - 1)).toBeLessThan(1e-9);
  });

  it('bounds its own error', { tags: 'long' }, () => {
    const loads = { farField: { sx: 1, sy: 0, txy: 0 } };
    for (const coarseness of [1, 2, 3]) {
      const { peak, error } = meshedStress(plate, loads, [], ellipse(0.5, 0.5, 0, 0), { coarseness }).loads.farField!;
      // 1e-4 is what the finite square adds.
      expect(Math.abs(peak / 3 - 1)).toBeLessThan(2 * error + 1e-4);
    }
  });

  it('gives hoop stress at the nodes of the outline', () => {
    const nodes = ellipse(0.5, 0.5, 0, 0);
    const { hoop } = meshedStress(plate, { farField: { sx: 1, sy: 0, txy: 0 } }, [], nodes, coarse);
    for (let j = 0; j < nodes.count; j++)
      expect(Math.abs(hoop.farField![j]! - (1 - 2 * Math.cos(2 * nodeParameter(j, nodes.count))))).toBeLessThan(0.01);
  });

  it('combines loads into cases, and mirrors with the joint', { tags: 'long' }, () => {
    const loads = { pull: { force: 60 }, side: { force: 3 }, moment: { moment: 20 }, pressure: { pressure: 4 } };
    const cases = [
      { name: 'one way', factors: { pull: 1, side: 1, pressure: 0.5 } },
      { name: 'other way', factors: { pull: 1, side: -1, pressure: 0.5 } },
    ];
    const right = meshedStress(tee, loads, cases, ellipse(0.6, 0.3, 0.3, 1, 0.4), coarse);
    const left = meshedStress(tee, loads, cases, ellipse(0.6, 0.3, -0.3, 1, -0.4), coarse);
    const near = (a: number, b: number) => expect(Math.abs(a / b - 1)).toBeLessThan(0.01);
    for (const name of ['pull', 'moment', 'pressure'] as const) near(right.loads[name]!.peak, left.loads[name]!.peak);
    near(right.loads.side!.peak, -left.loads.side!.least);
    near(right.cases['one way']!.peak, left.cases['other way']!.peak);
    expect(right.cases['one way']!.at[0]).toBeCloseTo(-left.cases['other way']!.at[0], 1);
    const sum = right.hoop.pull!.map((h, j) => h + right.hoop.side![j]! + 0.5 * right.hoop.pressure![j]!);
    expect(Math.max(...sum)).toBeLessThan(right.cases['one way']!.peak * 1.001);
    expect(Math.max(...sum)).toBeGreaterThan(right.cases['one way']!.peak * 0.99);
  });

  it('is softer on simple supports than on clamped ones', { tags: 'long' }, () => {
    // Known of the reference joint: a circle of 1 mm peaks at 212.8 MPa clamped and 314.6 simple under the same pull.
    const peak = (support: TeeJoint['support']) =>
      meshedStress({ ...tee, support } as TeeJoint, { pull: { force: 100 } }, [], ellipse(0.5, 0.5, 0, 1.25), coarse)
        .loads.pull!.peak;
    expect(peak('clamped') / 212.8).toBeCloseTo(1, 2);
    expect(peak('simple') / 314.6).toBeCloseTo(1, 2);
  });

  it('answers zero where nothing acts', () => {
    const result = meshedStress(
      tee,
      { cure: { deltaT: 0 } },
      [{ name: 'none', factors: {} }],
      ellipse(0.5, 0.5, 0, 1.25),
      { coarseness: 4 },
    );
    expect(result.loads.cure!.peak).toBe(0);
    expect(result.cases.none!.peak).toBe(0);
    expect(result.error).toBe(0);
  });

  it('refuses an outline that comes so near a border that triangles have no end, before it makes any', () => {
    const refused = /^channel: expected .* at most 1500 sides .* takes about \d+, 0\.0000\d+ mm from a border; keep it/;
    expect(() => meshedStress(tee, { pull: { force: 1 } }, [], ellipse(0.7, 1 - 1e-6, 0, 1, 0, 256))).toThrow(refused);
  });

  it('refuses an outline outside, a host without a load of its own, and a case of a load that is not given', () => {
    const circle = ellipse(0.5, 0.5, 0, 1.25);
    expect(() => meshedStress(tee, { pull: { force: 1 } }, [], ellipse(0.5, 0.5, 0, 0.4))).toThrow(InputError);
    expect(() => meshedStress(plate, { pull: { force: 1 } }, [], circle)).toThrow(/loads: expected at least one load/);
    const cases = [{ name: 'cured', factors: { cure: 1 } }];
    expect(() => meshedStress(tee, { pull: { force: 1 } }, cases, circle, coarse)).toThrow(/cases.cured.cure/);
  });
});
