import { Matrix, solve } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { referenceJoint, referencePly } from '../../../../../test/fixtures/tee-reference.js';
import { InputError } from '../../errors.js';
import { layupFromPlies, layupThickness, type Ply, sectionStiffness } from '../../material/index.js';
import { condenseTee, type TeeHalf } from './condense.js';
import { controlContour } from './contour.js';
import { cuspExclusion } from './recovery.js';
import type { TeeJoint } from './tee.js';

const contour = controlContour(5, 0.12, 0.12);
const largest = (values: Iterable<number>) => {
  let most = 0;
  for (const value of values) most = Math.max(most, Math.abs(value));
  return most;
};
const orderOf = (half: TeeHalf) => Math.sqrt(half.matrix.length);
const times = (half: TeeHalf, a: Float64Array) => {
  const order = orderOf(half);
  const force = new Float64Array(order);
  for (let i = 0; i < order; i++) for (let j = 0; j < order; j++) force[i]! += half.matrix[i * order + j]! * a[j]!;
  return force;
};

describe('condenseTee', () => {
  const host = condenseTee(referenceJoint, contour);
  const dofs = 2 * contour.x.length;

  it('gives both symmetries with support and free, and the scalars that can act on each', () => {
    expect(host.halves.map(({ symmetry, support, scalars }) => [symmetry, support, scalars])).toEqual([
      ['symmetric', 'clamped', ['strainZ', 'deltaT', 'pull']],
      ['symmetric', 'free', ['strainZ', 'deltaT', 'moment']],
      ['antisymmetric', 'clamped', ['side']],
      ['antisymmetric', 'free', []],
    ]);
    const simple = condenseTee({ ...referenceJoint, support: 'simple' }, contour);
    expect(simple.halves[0]!.scalars).toEqual(['strainZ', 'deltaT', 'pull', 'moment']);
  });

  it('has symmetric matrices, zero where the axis holds the contour', () => {
    for (const half of host.halves) {
      const order = orderOf(half);
      expect(order).toBe(dofs + half.scalars.length);
      const scale = largest(half.matrix);
      const skew = half.matrix.map((value, k) => value - half.matrix[(k % order) * order + Math.floor(k / order)]!);
      expect(largest(skew)).toBeLessThan(1e-12 * scale);
      const held = half.symmetry === 'symmetric' ? 0 : 1;
      for (const row of [held, dofs - 2 + held])
        expect(largest(half.matrix.subarray(row * order, (row + 1) * order))).toBe(0);
    }
  });

  /** Minus the own entry of a scalar: its displacement under itself on the whole joint's half, contour held still. */
  const compliance = (change: Partial<TeeJoint>, symmetry: 'symmetric' | 'antisymmetric', scalar: 'pull' | 'side') => {
    const half = condenseTee({ ...referenceJoint, ...change }, contour, { halves: [{ symmetry, support: 'clamped' }] })
      .halves[0]!;
    return -half.matrix[(dofs + half.scalars.indexOf(scalar)) * (orderOf(half) + 1)]!;
  };
  /** Stiffness of a layer along its tangent with no stress through the thickness and no strain along z. */
  const along = (layer: TeeJoint['skin'][number]) => {
    const { stiffness: C } = sectionStiffness(layer);
    return C[0]! - C[1]! ** 2 / C[5]!;
  };
  /** Sum over the overlaminate's layers of stiffness times the integral of `depth^power`. */
  const overlaminate = (power: number) => {
    let depth = 0;
    let sum = 0;
    for (const layer of referenceJoint.overlaminate) {
      const next = depth + layer.thickness;
      sum += (along(layer) * (next ** (power + 1) - depth ** (power + 1))) / (power + 1);
      depth = next;
    }
    return sum;
  };

  // Beam theory (Saint-Venant): end effects drop out of differences between lengths, so these hold exactly.
  it('stretches a longer web as a bar: pull', () => {
    const longer =
      compliance({ webHeight: 45 }, 'symmetric', 'pull') - compliance({ webHeight: 25 }, 'symmetric', 'pull');
    // One N/mm on both legs: half of it on one leg, working along the displacement of that half.
    expect(longer / ((0.25 * 20) / overlaminate(0))).toBeCloseTo(1, 3);
  });

  it('bends a longer web as a cantilever of its two bonded legs: side', () => {
    const at = [15, 25, 35, 45].map((webHeight) => compliance({ webHeight }, 'antisymmetric', 'side')) as [
      number,
      number,
      number,
      number,
    ];
    const third = at[3] - 3 * at[2] + 3 * at[1] - at[0];
    // h^3 / 3D of both legs, half of it for this half; the third difference of h^3 is 6 steps cubed.
    expect(third / (0.5 * ((6 * 10 ** 3) / (3 * 2 * overlaminate(2))))).toBeCloseTo(1, 3);
  });

  it('bends a longer skin as a beam: moment', () => {
    const rotation = (skinHalfSpan: number) => {
      const half = condenseTee({ ...referenceJoint, skinHalfSpan }, contour, {
        halves: [{ symmetry: 'symmetric', support: 'free' }],
      }).halves[0]!;
      const order = orderOf(half);
      const moment = dofs + half.scalars.indexOf('moment');
      const lift = new Float64Array(order).map((_, i) => (i < dofs && i % 2 === 1 ? 1 : 0));
      const force = times(half, lift);
      // Least over the contour's vertical place: then the pin carries nothing and the skin bends uniformly.
      const upward = lift.reduce((sum, value, i) => sum + value * force[i]!, 0);
      return force[moment]! ** 2 / upward - half.matrix[moment * (order + 1)]!;
    };
    const skin = referenceJoint.skin[0]!;
    expect((rotation(60) - rotation(40)) / (20 / ((along(skin) * skin.thickness ** 3) / 12))).toBeCloseTo(1, 3);
  });

  it('condenses to the same answer on a finer mesh, once the pins of a free half carry nothing', {
    tags: 'long',
  }, () => {
    // Energy of a smooth displacement of the contour, least over rigid motions where the half is free.
    const energies = (refinement: number) =>
      condenseTee(referenceJoint, contour, { refinement }).halves.map((half) => {
        const symmetric = half.symmetry === 'symmetric';
        const field = (at: (x: number, y: number) => readonly [number, number]) => {
          const a = new Float64Array(orderOf(half));
          contour.x.forEach((x, i) => {
            [a[2 * i], a[2 * i + 1]] = at(x, contour.y[i]!) as [number, number];
          });
          return a;
        };
        const smooth = field((x, y) => (symmetric ? [x * (1 + y * y), y * y - x * x] : [y + x * x, x * y]));
        const rigid = symmetric ? [field(() => [0, 1])] : [field(() => [1, 0]), field((x, y) => [-y, x])];
        const product = (a: Float64Array, b: Float64Array) => times(half, a).reduce((sum, f, i) => sum + f * b[i]!, 0);
        const energy = product(smooth, smooth);
        if (half.support !== 'free') return energy;
        const between = new Matrix(rigid.map((r) => rigid.map((q) => product(r, q))));
        const across = Matrix.columnVector(rigid.map((r) => product(r, smooth)));
        return energy - across.transpose().mmul(solve(between, across)).get(0, 0);
      });
    const coarse = energies(1);
    energies(2).forEach((fine, i) => {
      expect(Math.abs(coarse[i]! / fine - 1)).toBeLessThan(5e-4);
    });
  });

  it('lets a joint of one material expand freely without force or stress', () => {
    const [E, nu, alpha] = [3500, 0.35, 60e-6];
    const resin: Ply = {
      ...referencePly,
      E1: E,
      E2: E,
      nu12: nu,
      nu23: nu,
      G12: E / (2 + 2 * nu),
      alpha1: alpha,
      alpha2: alpha,
    };
    const joint: TeeJoint = {
      ...referenceJoint,
      overlaminate: layupFromPlies([45, -45, 0, 90], 0.5, resin),
      skin: [{ thickness: 3, angle: 'quasi-isotropic', ply: resin }],
      filler: resin,
    };
    const { halves, body } = condenseTee(joint, contour, {
      halves: [{ symmetry: 'symmetric', support: 'free' }],
    });
    const half = halves[0]!;
    const a = new Float64Array(orderOf(half));
    const strain = alpha * 100;
    contour.x.forEach((x, i) => {
      a[2 * i] = strain * x;
      // The pin sits at the bottom of the skin's end.
      a[2 * i + 1] = strain * (contour.y[i]! + 3);
    });
    a[dofs] = strain;
    a[dofs + 1] = 100;
    const fully = E * strain;
    expect(largest(times(half, a).subarray(0, dofs + 1))).toBeLessThan(1e-9 * fully);
    const stresses = body.stresses(half.kept(a, 1), 1, [...body.points.keys()]);
    expect(largest(stresses)).toBeLessThan(1e-9 * fully);
  });

  it('keeps its section points in the material and away from the cusps', () => {
    expect(host.body.points.length).toBeGreaterThan(300);
    for (const { place, x, y, layer, normalAngle } of host.body.points) {
      expect(Math.hypot(x - 5, y)).toBeGreaterThan(cuspExclusion * 5 * 0.999);
      expect(Math.hypot(x, y - 5)).toBeGreaterThan(cuspExclusion * 5 * 0.999);
      const radius = Math.hypot(x - 5, y - 5);
      const beyond = { x: x + 1e-3 * Math.cos(normalAngle), y: y + 1e-3 * Math.sin(normalAngle) };
      if (place === 'bend' || place === 'arc-interface') {
        expect(radius).toBeGreaterThan(3 - 1e-6);
        expect(radius).toBeLessThan(5 + 1e-4);
        expect(Math.hypot(beyond.x - 5, beyond.y - 5)).toBeLessThan(radius);
      }
      if (place === 'web') expect(beyond.x).toBeGreaterThan(x);
      if (place === 'foot' || place === 'skin' || place === 'base-interface') expect(beyond.y).toBeGreaterThan(y);
      if (place === 'filler') expect(radius > 5 - 1e-4 && contour.distance(x, y) < 1e-6).toBe(true);
      expect(layer === -1).toBe(['filler', 'arc-interface', 'base-interface'].includes(place));
    }
  });

  it('meshes joints of other proportions', { tags: 'long' }, () => {
    const joints: readonly [Partial<TeeJoint>, number, number][] = [
      [{ bendRadius: 2.5 }, 0.05, 0.1],
      [{ bendRadius: 12, footLength: 28 }, 0.5, 0.3],
      [{ bendRadius: 3, footLength: 37 }, 0.3, 0.05],
      [{ overlaminate: layupFromPlies([90, 0, 30], 0.125, referencePly) }, 0.1, 0.5],
      [{ overlaminate: layupFromPlies([45, 0, 90, 20, 70, 10, 80, 45, 0, 90], 0.49, referencePly) }, 0.12, 0.12],
      [
        { webHeight: 1, footLength: 2, skinHalfSpan: 200, skin: layupFromPlies([0, 90, 45, 0], 0.2, referencePly) },
        0.7,
        0.45,
      ],
    ];
    for (const [change, wall, edgeRadius] of joints) {
      const joint = { ...referenceJoint, ...change };
      const { halves, body } = condenseTee(joint, controlContour(joint.bendRadius, wall, edgeRadius));
      for (const { matrix } of halves) expect(matrix.every(Number.isFinite)).toBe(true);
      // Saint-Venant: nothing is judged within a thickness of where a load comes in, a laminate ends or a support holds.
      const [t, depth] = [layupThickness(joint.overlaminate), layupThickness(joint.skin)];
      const reach = (place: string, along: 'x' | 'y') =>
        Math.max(...body.points.filter((point) => point.place === place).map((point) => point[along]));
      expect(reach('web', 'y')).toBeLessThanOrEqual(joint.bendRadius + joint.webHeight - t + 1e-9);
      expect(reach('foot', 'x')).toBeLessThanOrEqual(joint.bendRadius + joint.footLength - t + 1e-9);
      expect(reach('skin', 'x')).toBeLessThanOrEqual(joint.skinHalfSpan - depth + 1e-9);
    }
  });

  it('refuses impossible joints with path, expectation, value and remedy', () => {
    const refused = (change: Partial<TeeJoint>) => () => condenseTee({ ...referenceJoint, ...change }, contour);
    expect(refused({ bendRadius: 2 })).toThrow(InputError);
    expect(refused({ bendRadius: 2 })).toThrow(
      /host.bendRadius: expected above the overlaminate's thickness of 2 mm, received 2;/,
    );
    expect(refused({ bendRadius: 6 })).toThrow(/contour's 5 mm/);
    expect(refused({ overlaminate: [] })).toThrow(/host.overlaminate/);
    expect(refused({ skin: [] })).toThrow(/host.skin.thickness/);
    expect(refused({ webHeight: -1 })).toThrow(/host.web.height/);
    expect(refused({ footLength: Number.NaN })).toThrow(/host.foot.length/);
    expect(refused({ skinHalfSpan: 20 })).toThrow(/at least bendRadius \+ foot.length = 25 mm/);
  });
});
