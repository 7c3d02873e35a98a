import { describe, expect, it } from 'vitest';
import { largestDifference } from '../../../../test/fixtures/numbers.js';
import { ellipseNodes } from '../../../../test/fixtures/tee-reference.js';
import { type CurveNodes, createCurveRates } from '../outline/index.js';
import { exactSlopes } from './edge-slopes.js';
import { createEdgeSolver } from './edge-solver.js';
import { createEdgesSolver } from './edges-solver.js';
import { createGroupSolver } from './group-solver.js';
import type { HostResponse, SplitResponse } from './host-response.js';
import { basis, half, someLoad } from './test/some-host.js';

/** The image of an edge in `x = 0`, counter-clockwise as well. */
function mirrorImage({ count, ...nodes }: CurveNodes): CurveNodes {
  const turned = (values: Float64Array, sign: 1 | -1) => values.map((_, j) => sign * values[count - 1 - j]!);
  const { x, y, dx, dy, ddx, ddy } = nodes;
  return {
    count,
    ...{ x: turned(x, -1), y: turned(y, 1), dx: turned(dx, 1), dy: turned(dy, -1) },
    ...{ ddx: turned(ddx, -1), ddy: turned(ddy, 1) },
  };
}

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

  it.each([false, true])('solves by halves what three whole edges are, antisymmetric: %s', (isOdd) => {
    const count = 64;
    const middle = ellipseNodes(0.3, 0.4, [0, 1], 0, count);
    const load = someLoad(5, { symmetric: !isOdd, antisymmetric: isOdd });
    const group = createGroupSolver(basis, count, { edges: 2, onAxis: true }, [isOdd], { tolerance: 1e-13 });
    const folded = group.solve([middle, right], [load]);
    const every = createEdgesSolver(basis, count, ['whole', 'whole', 'whole'], 1, { tolerance: 1e-13 });
    const whole = every.solve([middle, right, mirrorImage(right)], [load]);
    const scale = Math.max(...whole.phi[0]!.map(Math.abs));
    expect(largestDifference(folded.phi[0]!, whole.phi[0]!.subarray(0, 4 * count))).toBeLessThan(1e-9 * scale);
    expect(largestDifference(folded.moments[0]!, whole.moments[0]!)).toBeLessThan(1e-9 * scale);
  });

  it('solves in a host without symmetry what it solves in the same one told by its classes', () => {
    const { undisturbed, response } = someLoad(5, { symmetric: true, antisymmetric: true });
    const { symmetric, antisymmetric } = response as SplitResponse;
    const order = 2 * half;
    const matrix = new Float64Array(order * order);
    for (let i = 0; i < half; i++)
      for (let j = 0; j < half; j++) {
        matrix[i * order + j] = symmetric[i * half + j]!;
        matrix[(half + i) * order + half + j] = antisymmetric[i * half + j]!;
      }
    const solved = (host: HostResponse) =>
      createEdgeSolver(basis, 64, 'whole', 1, 1e-13).solve(right, [{ undisturbed, response: host }]).phi[0]!;
    expect(largestDifference(solved({ whole: matrix }), solved({ symmetric, antisymmetric }))).toBeLessThan(1e-11);
  });

  it('goes on from what a like outline left', () => {
    const solver = createGroupSolver(basis, 64, two, odd, { tolerance: 1e-12 });
    const first = solver.solve([right], loads);
    const near = first.phi.map((values) => values.slice());
    const { iterations } = first;
    expect(solver.solve([right], loads, near).iterations).toBeLessThan(iterations);
  });
});
