import { describe, expect, it } from 'vitest';
import { mappedNodes } from '../../../../test/fixtures/mapped-hole.js';
import { largestDifference } from '../../../../test/fixtures/numbers.js';
import { bentNodes, ellipseNodes } from '../../../../test/fixtures/tee-reference.js';
import { type CurveNodes, createCurveRates } from '../outline/index.js';
import type { RegularBasis } from './basis.js';
import { exactSlopes } from './edge-slopes.js';
import { createEdgeSolver } from './edge-solver.js';
import { createEdgesSolver, type EdgeLoad } from './edges-solver.js';
import type { EdgeFold } from './fold.js';
import { hoopRule } from './hoop.js';
import { farFieldLoad, sheet, solveEdge } from './test/far-field.js';
import { basis, half, someHost, someLoad } from './test/some-host.js';

/** Any smooth motion of an outline: waves of its velocity along the parameter, alike on both sides with `mirror`. */
function motionsOf({ count, x }: CurveNodes, mirror: boolean, howMany: number) {
  const rates = createCurveRates(howMany, count);
  for (let p = 0; p < howMany; p++)
    x.forEach((_, j) => {
      const v = ((j + 0.5) * 2 * Math.PI) / count;
      const at = p * count + j;
      const phase = mirror ? 0 : 0.7 * p;
      rates.x[at] = Math.sin((p + 1) * v + phase);
      rates.y[at] = 0.5 * Math.cos(p * v + phase);
      rates.dx[at] = (p + 1) * Math.cos((p + 1) * v + phase);
      rates.dy[at] = -0.5 * p * Math.sin(p * v + phase);
    });
  return rates;
}

/** Largest error of the slopes against central differences of fourth order, over the largest slope of each motion, load and kind. */
function slopeError(nodes: CurveNodes, fold: EdgeFold, loads: readonly EdgeLoad[], on: RegularBasis): number {
  const { count } = nodes;
  const mirror = fold === 'half';
  const howMany = 5;
  const rates = motionsOf(nodes, mirror, howMany);
  const solver = createEdgeSolver(on, count, fold, loads.length, 1e-14);
  const rule = hoopRule(count);
  const seen = mirror ? count / 2 : count;
  const readings = (motion: number, step: number) => {
    const moved: CurveNodes = { ...nodes };
    for (const of of ['x', 'y', 'dx', 'dy'] as const)
      Object.assign(moved, { [of]: nodes[of].map((value, j) => value + step * rates[of][motion * count + j]!) });
    const { phi, moments, strains } = solver.solve(moved, loads);
    return loads.map((_, l) => {
      const slope = new Float64Array(2 * count);
      const [hoop, halfway] = [new Float64Array(count), new Float64Array(seen)];
      rule.slope(phi[l]!, slope);
      rule.take(moved, slope, on.length, 0);
      rule.atNodes(hoop);
      rule.halfway(halfway);
      return { hoop: hoop.subarray(0, seen), halfway, moments: moments[l]!.slice(), strains: strains.slice(l, l + 1) };
    });
  };
  readings(0, 0);
  const { hoop, halfway, moments, strains } = solver.slopes(rates, howMany);
  const slopes = { hoop, halfway, moments: loads.map((_, l) => moments(l)), strains: loads.map((_, l) => strains(l)) };
  let error = 0;
  for (let p = 0; p < howMany; p++) {
    const step = 2e-4;
    const [a, b, c, d] = [step, -step, 2 * step, -2 * step].map((by) => readings(p, by));
    for (let l = 0; l < loads.length; l++)
      for (const of of ['hoop', 'halfway', 'moments', 'strains'] as const) {
        const difference = a![l]![of].map(
          (value, i) => (8 * (value - b![l]![of][i]!) - c![l]![of][i]! + d![l]![of][i]!) / (12 * step),
        );
        const size = difference.length;
        const exact = slopes[of][l]!.subarray(p * size, (p + 1) * size);
        // Where nothing strains along the channel, nothing is all that is right.
        const most = Math.max(...difference.map(Math.abs));
        error = Math.max(error, largestDifference(exact, difference) / (most > 0 ? most : 1));
      }
  }
  return error;
}

const upright = ellipseNodes(0.7, 0.5, [0, 1.2], 0, 64);
const turned = ellipseNodes(0.7, 0.5, [0.2, 1.1], 0.4, 96);
/** Of a pair, less than its width from the other. */
const right = ellipseNodes(0.7, 0.5, [1, 1.1], 0.4, 96);

/** A host that answers as another but for one rigid motion more. */
function freed(host: ReturnType<typeof someHost>): ReturnType<typeof someHost> {
  const add = (matrix: Float64Array) =>
    matrix.map((value, at) => value + 0.01 * Math.cos(Math.floor(at / half)) * Math.cos(at % half));
  return {
    symmetric: add(host.symmetric),
    antisymmetric: add(host.antisymmetric),
    axial: { ...host.axial!, stiffness: 30, field: host.axial!.field.map((value) => 2 * value) },
  };
}

describe('slopes of an edge', () => {
  it.each([
    ['mirror-symmetric', upright, 'half', { sx: 0.4, sy: 1, txy: 0 }],
    ['general', turned, 'whole', { sx: 0.4, sy: 1, txy: 0.3 }],
    ['a pair under tension', right, 'pair', { sx: 0.4, sy: 1, txy: 0 }],
    ['a pair under shear', right, 'odd-pair', { sx: 0, sy: 0, txy: 1 }],
  ] as const)('are those of central differences in an infinite sheet: %s', (_, nodes, fold, far) => {
    expect(slopeError(nodes, fold, [farFieldLoad(far)], sheet)).toBeLessThan(1e-6);
  });

  it.each([
    ['mirror-symmetric', upright, 'half'],
    ['general', turned, 'whole'],
    ['symmetric fields of a pair', right, 'pair'],
    ['antisymmetric fields of a pair', right, 'odd-pair'],
  ] as const)('are those of central differences in a host, each load with its own support: %s', (_, nodes, fold) => {
    const parts = { symmetric: fold !== 'odd-pair', antisymmetric: fold === 'whole' || fold === 'odd-pair' };
    const loads = [
      someLoad(3, parts),
      // One outer product more, and two for the strain along the channel: solved by the same factors, corrected.
      { ...someLoad(5, parts), response: freed(someHost(4)) },
      // Another host altogether: factors of its own.
      { ...someLoad(7, parts), response: someHost(8) },
      { ...someLoad(9, parts), response: undefined },
    ];
    expect(slopeError(nodes, fold, loads, basis)).toBeLessThan(1e-6);
  });

  it.each([
    ['symmetric fields', ['half', 'pair']],
    ['antisymmetric fields', ['odd-half', 'odd-pair']],
    ['general', ['whole', 'whole']],
  ] as const)('are those of central differences where two edges are solved together: %s', (_, folds) => {
    const edges = [ellipseNodes(0.5, 0.4, [0, 1.2], 0, 64), ellipseNodes(0.4, 0.3, [1.1, 1], 0.4, 64)];
    const whole = folds[0] === 'whole';
    const load = someLoad(3, { symmetric: whole || folds[0] === 'half', antisymmetric: folds[0] !== 'half' });
    const solver = createEdgesSolver(basis, 64, folds, 1, { tolerance: 1e-14, slopes: exactSlopes });
    const howMany = 3;
    const motions = edges.map((nodes, k) => motionsOf(nodes, k === 0 && !whole, howMany));
    const momentsAt = (motion: number, step: number) => {
      const moved = edges.map((nodes, k) => {
        const one: CurveNodes = { ...nodes };
        for (const of of ['x', 'y', 'dx', 'dy'] as const)
          Object.assign(one, { [of]: nodes[of].map((value, j) => value + step * motions[k]![of][motion * 64 + j]!) });
        return one;
      });
      return solver.solve(moved, [load]).moments[0]!.slice();
    };
    const size = momentsAt(0, 0).length;
    const exact = solver.slopes(motions, howMany).moments(0).slice();
    for (let p = 0; p < howMany; p++) {
      const step = 2e-4;
      const [a, b, c, d] = [step, -step, 2 * step, -2 * step].map((by) => momentsAt(p, by));
      const difference = a!.map((value, i) => (8 * (value - b![i]!) - c![i]! + d![i]!) / (12 * step));
      const most = Math.max(...difference.map(Math.abs));
      expect(largestDifference(exact.subarray(p * size, (p + 1) * size), difference) / most).toBeLessThan(1e-7);
    }
  });

  it('are the same where another outline was solved since', () => {
    const loads = [someLoad(3, {}), { ...someLoad(7, {}), response: someHost(8) }];
    const motions = motionsOf(turned, false, 3);
    const slopesOf = (between: () => void) => {
      const solver = createEdgeSolver(basis, 96, 'whole', loads.length, 1e-14);
      solver.solve(turned, loads);
      between();
      const { hoop, moments, strains } = solver.slopes(motions, 3);
      return [...hoop, ...loads.flatMap((_, l) => [moments(l), strains(l)])].map((values) => values.slice());
    };
    const other = createEdgeSolver(basis, 96, 'whole', loads.length, 1e-14);
    expect(slopesOf(() => other.solve(right, loads))).toEqual(slopesOf(() => {}));
  });

  it('are those of central differences where the inner point is used with its image', () => {
    const arch = bentNodes({ middle: 1.4, sag: 1, halfWidth: 1.2, thickness: 0.5 }, 256);
    const load = someLoad(3, { symmetric: true });
    expect(createEdgeSolver(basis, 256, 'half', 1, 1e-14).solve(arch, [load]).inners[0]!.x).toBeGreaterThan(0.05);
    expect(slopeError(arch, 'half', [load], basis)).toBeLessThan(1e-6);
  });

  it('are exact for the discrete equation on nodes that do not resolve the outline', () => {
    const load = farFieldLoad({ sx: 0, sy: 1, txy: 0 });
    const square = (count: number) => mappedNodes({ eps: -1 / 5, n: 3 }, count);
    const peak = (count: number) => solveEdge(square(count), load, { fold: 'half' }).extremes.peak;
    expect(Math.abs(peak(32) / peak(256) - 1)).toBeGreaterThan(1e-3);
    expect(slopeError(square(32), 'half', [load], sheet)).toBeLessThan(1e-6);
  });

  it('are the same in a larger batch', () => {
    const solver = createEdgeSolver(basis, 64, 'half', 1, 1e-14);
    solver.solve(upright, [someLoad(3, { symmetric: true })]);
    const rates = motionsOf(upright, true, 7);
    const few = solver.slopes(rates, 2).hoop[0]!.slice(0, 64);
    expect(largestDifference(solver.slopes(rates, 7).hoop[0]!.subarray(0, 64), few)).toBeLessThan(1e-12);
  });
});
