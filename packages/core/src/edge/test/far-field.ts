import type { CurveNodes } from '../../outline/index.js';
import {
  createEdgeSolver,
  createHoopExtremes,
  type EdgeFold,
  type EdgeLoad,
  type HoopExtremes,
  type HostResponse,
  hoopRule,
  powerRecurrence,
  type RegularBasis,
} from '../index.js';

/** A uniform far field, MPa. */
export interface FarField {
  readonly sx: number;
  readonly sy: number;
  readonly txy: number;
}

/** Regular fields `phi = g z`, `psi = g' z` about the origin: all that an infinite sheet needs. */
export const sheet: RegularBasis = { degree: 1, centreX: 0, centreY: 0, length: 1, recurrence: powerRecurrence(1) };

/** `g = (sx + sy)/4`, `g' = (sy - sx)/2 + i txy` (Muskhelishvili), ordered `[Re g, Re g' | Im g, Im g']`. */
export function farFieldLoad({ sx, sy, txy }: FarField, response?: HostResponse): EdgeLoad {
  return { undisturbed: Float64Array.of((sx + sy) / 4, (sy - sx) / 2, 0, txy), response };
}

export interface SolvedEdge {
  /** MPa at the nodes. */
  readonly hoop: Float64Array;
  /** Of the solution along the edge, for `hoopRule`; its length is that of the basis. */
  readonly slope: Float64Array;
  readonly extremes: HoopExtremes;
  readonly iterations: number;
  readonly residual: number;
}

export interface SolveOptions {
  readonly fold?: EdgeFold;
  readonly basis?: RegularBasis;
}

/** Solves one load to rounding. */
export function solveEdge(
  nodes: CurveNodes,
  load: EdgeLoad,
  { fold = 'whole', basis = sheet }: SolveOptions = {},
): SolvedEdge {
  const { count } = nodes;
  const { phi, iterations, residual } = createEdgeSolver(basis, count, fold, 1, 1e-14).solve(nodes, [load]);
  const rule = hoopRule(count);
  const slope = new Float64Array(2 * count);
  const hoop = new Float64Array(count);
  const extremes = createHoopExtremes();
  rule.slope(phi[0]!, slope);
  rule.take(nodes, slope, basis.length, 0);
  rule.atNodes(hoop);
  rule.extremes(hoop, extremes);
  return { slope, hoop, extremes, iterations, residual };
}
