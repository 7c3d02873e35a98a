import type { CurveNodes, NodeRates } from '../outline/index.js';
import type { RegularBasis } from './basis.js';
import { type EdgeSlopes, exactSlopes } from './edge-slopes.js';
import { createEdgesSolver, type EdgeLoad, type EdgesSolution } from './edges-solver.js';
import type { EdgeFold } from './fold.js';

/** `EdgesSolver` of one edge, or one and its mirror image. */
export interface EdgeSolver {
  solve(nodes: CurveNodes, loads: readonly EdgeLoad[], near?: readonly Float64Array[]): EdgesSolution;
  slopes(motions: NodeRates, howMany: number): EdgeSlopes;
}

/** Arguments as of `createEdgesSolver`; with exact slopes. */
export function createEdgeSolver(
  basis: RegularBasis,
  count: number,
  fold: EdgeFold,
  loadCount: number,
  tolerance: number,
): EdgeSolver {
  const { solve, slopes } = createEdgesSolver(basis, count, [fold], loadCount, { tolerance, slopes: exactSlopes });
  return {
    solve: (nodes, loads, near) => solve([nodes], loads, near),
    slopes: (motions, howMany) => slopes([motions], howMany),
  };
}
