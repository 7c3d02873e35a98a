import type { NodeRates } from '../outline/index.js';
import { halfSize, type RegularBasis } from './basis.js';
import type { EdgeSlopes } from './edge-slopes.js';
import { createEdgeSolver, type EdgeLoad, type EdgeSolution, type EdgeSolver } from './edge-solver.js';
import type { InnerPoint } from './inner-point.js';

/**
 * Solver of two edges that are mirror images of each other, for loads each of which is symmetric or antisymmetric by itself: `odd` says which.
 * Outlines are given, and solved, on the right; moments stand in both classes, those of the other one 0.
 */
export function createPairSolver(
  basis: RegularBasis,
  count: number,
  odd: readonly boolean[],
  tolerance: number,
): Omit<EdgeSolver, 'fold'> {
  const half = halfSize(basis.degree);
  const classes = [false, true]
    .map((isOdd) => {
      const members = odd.flatMap((one, l) => (one === isOdd ? [l] : []));
      const fold = isOdd ? 'odd-pair' : 'pair';
      return { members, first: isOdd ? half : 0, fold } as const;
    })
    .filter(({ members }, k) => members.length > 0 || (k === 0 && odd.length === 0))
    .map((one) => ({
      ...one,
      solver: createEdgeSolver(basis, count, one.fold, one.members.length, tolerance),
      own: [] as EdgeLoad[],
      ownNear: [] as Float64Array[],
    }));
  const phi = odd.map(() => new Float64Array(2 * count));
  const moments = odd.map(() => new Float64Array(2 * half));
  const solution: EdgeSolution & { readonly inner: InnerPoint } = {
    ...{ phi, moments, inner: { x: 0, y: 0 } },
    ...{ iterations: 0, residual: 0 },
  };

  return {
    count,
    solve(nodes, loads, near) {
      solution.iterations = 0;
      solution.residual = 0;
      for (const { members, first, solver, own, ownNear } of classes) {
        for (let k = 0; k < members.length; k++) {
          own[k] = loads[members[k]!]!;
          if (near !== undefined) ownNear[k] = near[members[k]!]!;
        }
        const found = solver.solve(nodes, own, near && ownNear);
        solution.inner.x = found.inner.x;
        solution.inner.y = found.inner.y;
        solution.iterations += found.iterations;
        if (!(found.residual <= solution.residual)) solution.residual = found.residual;
        for (let k = 0; k < members.length; k++) {
          phi[members[k]!]!.set(found.phi[k]!);
          moments[members[k]!]!.set(found.moments[k]!, first);
        }
      }
      return solution;
    },
    slopes(motions: NodeRates, howMany: number): EdgeSlopes {
      const found = classes.map(({ solver }) => solver.slopes(motions, howMany));
      const of = <T>(pick: (slopes: EdgeSlopes, k: number) => T, l: number): T => {
        const at = classes.findIndex(({ members }) => members.includes(l));
        return pick(found[at]!, classes[at]!.members.indexOf(l));
      };
      return {
        hoop: odd.map((_, l) => of(({ hoop }, k) => hoop[k]!, l)),
        halfway: odd.map((_, l) => of(({ halfway }, k) => halfway[k]!, l)),
        moments: (l) => of((slopes, k) => slopes.moments(k), l),
        phi,
        phiRates: odd.map((_, l) => of(({ phiRates }, k) => phiRates[k]!, l)),
      };
    },
  };
}
