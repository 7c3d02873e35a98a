import { describe, expect, it } from 'vitest';
import { mappedNodes } from '../../../../test/fixtures/mapped-hole.js';
import { largestDifference } from '../../../../test/fixtures/numbers.js';
import { ellipseNodes } from '../../../../test/fixtures/tee-reference.js';
import type { CurveNodes } from '../outline/index.js';
import { createEdgeSolver } from './edge-solver.js';
import { farFieldLoad, sheet, solveEdge } from './test/far-field.js';
import { basis, half, someLoad } from './test/some-host.js';

const mirrored = (count: number) => ellipseNodes(0.7, 0.5, [0, 1.2], 0, count);

describe('createEdgeSolver', () => {
  it('gives the same to mirror-symmetric outlines and loads in half the unknowns', () => {
    const nodes = mirrored(64);
    const load = someLoad(3, { symmetric: true });
    const whole = solveEdge(nodes, load, { basis });
    const folded = solveEdge(nodes, load, { basis, fold: 'half' });
    const scale = Math.max(...whole.hoop.map(Math.abs));
    expect(largestDifference(folded.hoop, whole.hoop)).toBeLessThan(1e-11 * scale);
    expect(folded.extremes.peak).toBeCloseTo(whole.extremes.peak, 10);
    const moments = [false, true].map((mirror) =>
      createEdgeSolver(basis, 64, mirror ? 'half' : 'whole', 1, 1e-13)
        .solve(nodes, [load])
        .moments[0]!.slice(),
    );
    expect(moments[1]).toHaveLength(half);
    expect(largestDifference(moments[0]!.subarray(0, half), moments[1]!)).toBeLessThan(1e-11);
    expect(Math.max(...moments[0]!.subarray(half).map(Math.abs))).toBeLessThan(1e-12);
  });

  it('mirrors the answer of an antisymmetric load with changed sign', () => {
    const { hoop, extremes } = solveEdge(mirrored(64), someLoad(5, { antisymmetric: true }), { basis });
    const image = hoop.map((_, j) => -hoop[63 - j]!);
    expect(largestDifference(hoop, image)).toBeLessThan(1e-11 * extremes.peak);
    expect(extremes.least).toBeCloseTo(-extremes.peak, 9);
  });

  it('solves each load as it would alone, in one call and in the next', () => {
    const nodes = ellipseNodes(0.6, 0.3, [0.2, 1.1], 0.4, 48);
    const loads = [someLoad(1, { symmetric: true }), someLoad(7, { symmetric: true, antisymmetric: true })];
    const both = createEdgeSolver(basis, 48, 'whole', 2, 1e-13);
    both.solve(mirrored(48), loads);
    const phi = both.solve(nodes, loads).phi.map((values) => values.slice());
    loads.forEach((load, l) => {
      const alone = createEdgeSolver(basis, 48, 'whole', 1, 1e-13).solve(nodes, [load]);
      expect(largestDifference(alone.phi[0]!, phi[l]!)).toBeLessThan(1e-11);
    });
  });

  it('reaches the tolerance it was given, in fewer iterations when it is wider', () => {
    const solutions = [1e-4, 1e-12].map((tolerance) => {
      const { iterations, residual } = createEdgeSolver(basis, 64, 'half', 1, tolerance).solve(mirrored(64), [
        someLoad(3, { symmetric: true }),
      ]);
      expect(residual).toBeLessThanOrEqual(tolerance);
      return iterations;
    });
    expect(solutions[0]!).toBeLessThan(solutions[1]!);
  });

  // Style of the house: no absolute length may hide anywhere.
  it.each([1e-3, 1e3])('gives the same stress to an outline %f times the size', (size) => {
    const load = farFieldLoad({ sx: 0.3, sy: 0.9, txy: 0.5 });
    const hole = { eps: 0.25, n: 2 };
    const whole = solveEdge(mappedNodes(hole, 64), load);
    const scaled = solveEdge(mappedNodes({ ...hole, size }, 64), load);
    expect(largestDifference(scaled.hoop, whole.hoop)).toBeLessThan(1e-11);
    expect(Math.abs(scaled.extremes.peak / whole.extremes.peak - 1)).toBeLessThan(1e-11);
  });

  it('gives NaN, not a wrong number, when a node is NaN', () => {
    const nodes: CurveNodes = ellipseNodes(1, 0.5, [0, 0], 0, 32);
    nodes.x[5] = Number.NaN;
    const { extremes, residual } = solveEdge(nodes, farFieldLoad({ sx: 1, sy: 0, txy: 0 }));
    expect(residual).toBeNaN();
    expect(extremes.peak).toBeNaN();
  });

  /**
   * A free rim of radius B is the simplest host that answers: even tension p on it gives `phi = A z`,
   * `A = (p/2) B^2 / (B^2 - a^2)` round a hole of radius a (Lamé), so that the host adds `(p/2) a^2 / (B^2 - a^2)` to the undisturbed
   * p/2. The only moment is `oint conj(A t) 2 dt / i = 4 pi A a^2`: R = 1/(4 pi B^2), whatever the hole.
   */
  it.each([0.2, 0.5, 0.9])("gives Lamé's ring of radii %f and 1 under tension on its rim", (a) => {
    const response = { symmetric: new Float64Array(4), antisymmetric: new Float64Array(4) };
    response.symmetric[0] = 1 / (4 * Math.PI);
    const { hoop } = solveEdge(ellipseNodes(a, a, [0, 0], 0, 32), farFieldLoad({ sx: 1, sy: 1, txy: 0 }, response), {
      basis: sheet,
    });
    expect(largestDifference(hoop, new Float64Array(32).fill(2 / (1 - a ** 2)))).toBeLessThan(1e-10 / (1 - a ** 2));
  });
});
