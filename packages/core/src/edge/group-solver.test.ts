import { describe, expect, it } from 'vitest';
import { largestDifference } from '../../../../test/fixtures/numbers.js';
import { ellipseNodes } from '../../../../test/fixtures/tee-reference.js';
import { createCurveRates } from '../outline/index.js';
import { exactSlopes } from './edge-slopes.js';
import { createEdgeSolver } from './edge-solver.js';
import { createGroupSolver } from './group-solver.js';
import { basis, half, someLoad } from './test/some-host.js';

describe('createGroupSolver', () => {
  const right = ellipseNodes(0.6, 0.4, [0.9, 1.1], 0.3, 64);
  const loads = [
    someLoad(3, { antisymmetric: true }),
    someLoad(5, { symmetric: true }),
    someLoad(7, { antisymmetric: true }),
  ];
  const odd = [true, false, true];
  const two = { edges: 1, onAxis: false };

  it('solves every load in its symmetry class, and gives moments and slopes in the order of the loads', () => {
    const both = createGroupSolver(basis, 64, two, odd, { tolerance: 1e-13, slopes: exactSlopes });
    const { phi, moments, strains } = both.solve([right], loads);
    const rates = createCurveRates(1, 64);
    rates.x.fill(1);
    const slopes = both.slopes([rates], 1);
    loads.forEach((load, l) => {
      const alone = createEdgeSolver(basis, 64, odd[l] ? 'odd-pair' : 'pair', 1, 1e-13);
      const one = alone.solve(right, [load]);
      expect(largestDifference(phi[l]!, one.phi[0]!)).toBeLessThan(1e-11);
      expect(strains[l]).toBeCloseTo(one.strains[0]!, 12);
      const [first, other] = odd[l] ? [half, 0] : [0, half];
      expect(largestDifference(moments[l]!.subarray(first, first + half), one.moments[0]!)).toBeLessThan(1e-11);
      expect(moments[l]!.subarray(other, other + half).every((moment) => moment === 0)).toBe(true);
      const own = alone.slopes(rates, 1);
      expect(largestDifference(slopes.hoop[l]!.subarray(0, 64), own.hoop[0]!.subarray(0, 64))).toBeLessThan(1e-9);
      expect(largestDifference(slopes.moments(l).subarray(0, half), own.moments(0).subarray(0, half))).toBeLessThan(
        1e-9,
      );
      expect(slopes.strains(l)[0]).toBeCloseTo(own.strains(0)[0]!, 10);
    });
  });

  it('goes on from what a like outline left', () => {
    const solver = createGroupSolver(basis, 64, two, odd, { tolerance: 1e-12 });
    const first = solver.solve([right], loads);
    const near = first.phi.map((values) => values.slice());
    const { iterations } = first;
    expect(solver.solve([right], loads, near).iterations).toBeLessThan(iterations);
  });
});
