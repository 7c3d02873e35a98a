import type { CurveNodes, NodeRates } from '../outline/index.js';
import { halfSize, type RegularBasis } from './basis.js';
import type { EdgeSlopes } from './edge-slopes.js';
import {
  createEdgesSolver,
  type EdgeLoad,
  type EdgeSolving,
  type EdgesSolution,
  type EdgesSolver,
} from './edges-solver.js';
import type { EdgeFold } from './fold.js';

/** Edges that are symmetric in `x = 0` together. */
export interface EdgeGroup {
  /** On the right of `x = 0`, and on it. */
  readonly edges: number;
  /** The first one lies on `x = 0` and is its own mirror image. */
  readonly onAxis: boolean;
}

/**
 * Solver of edges that are symmetric in `x = 0` together, for loads each of which is symmetric or antisymmetric by itself: `odd` says which.
 * Outlines are given, and solved, on the right; moments stand in both classes, those of the other one 0.
 */
export function createGroupSolver(
  basis: RegularBasis,
  count: number,
  { edges, onAxis }: EdgeGroup,
  odd: readonly boolean[],
  how: EdgeSolving,
): EdgesSolver {
  const half = halfSize(basis.degree);
  const classes = [false, true]
    .map((isOdd) => {
      const members = odd.flatMap((one, l) => (one === isOdd ? [l] : []));
      const [ofAxis, ofPair]: readonly EdgeFold[] = isOdd ? ['odd-half', 'odd-pair'] : ['half', 'pair'];
      const folds = Array.from({ length: edges }, (_, k) => (k === 0 && onAxis ? ofAxis! : ofPair!));
      return { members, first: isOdd ? half : 0, folds };
    })
    .filter(({ members }, k) => members.length > 0 || (k === 0 && odd.length === 0))
    .map((one) => ({
      ...one,
      solver: createEdgesSolver(basis, count, one.folds, one.members.length, how),
      own: [] as EdgeLoad[],
      ownNear: [] as Float64Array[],
    }));
  const phi = odd.map(() => new Float64Array(2 * count * edges));
  const moments = odd.map(() => new Float64Array(2 * half));
  const strains = new Float64Array(odd.length);
  const inners = Array.from({ length: edges }, () => ({ x: 0, y: 0 }));
  const solution: EdgesSolution = { phi, moments, strains, inners, iterations: 0, residual: 0 };

  return {
    solve(nodes: readonly CurveNodes[], loads, near) {
      solution.iterations = 0;
      solution.residual = 0;
      for (const { members, first, solver, own, ownNear } of classes) {
        for (let k = 0; k < members.length; k++) {
          own[k] = loads[members[k]!]!;
          if (near !== undefined) ownNear[k] = near[members[k]!]!;
        }
        const found = solver.solve(nodes, own, near && ownNear);
        for (let k = 0; k < edges; k++) {
          inners[k]!.x = found.inners[k]!.x;
          inners[k]!.y = found.inners[k]!.y;
        }
        solution.iterations += found.iterations;
        if (!(found.residual <= solution.residual)) solution.residual = found.residual;
        for (let k = 0; k < members.length; k++) {
          phi[members[k]!]!.set(found.phi[k]!);
          moments[members[k]!]!.set(found.moments[k]!, first);
          strains[members[k]!] = found.strains[k]!;
        }
      }
      return solution;
    },
    slopes(motions: readonly NodeRates[], howMany: number): EdgeSlopes {
      const found = classes.map(({ solver }) => solver.slopes(motions, howMany));
      const of = <T>(pick: (slopes: EdgeSlopes, k: number) => T, l: number): T => {
        const at = classes.findIndex(({ members }) => members.includes(l));
        return pick(found[at]!, classes[at]!.members.indexOf(l));
      };
      return {
        hoop: odd.map((_, l) => of(({ hoop }, k) => hoop[k]!, l)),
        halfway: odd.map((_, l) => of(({ halfway }, k) => halfway[k]!, l)),
        moments: (l) => of((slopes, k) => slopes.moments(k), l),
        strains: (l) => of((slopes, k) => slopes.strains(k), l),
        phi,
        phiRates: odd.map((_, l) => of(({ phiRates }, k) => phiRates[k]!, l)),
      };
    },
  };
}
