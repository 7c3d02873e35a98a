import { createGmres, type GmresResult, multiply } from '../linear/index.js';
import { type CurveNodes, createCurveNodes, type NodeRates } from '../outline/index.js';
import { createBasisTable, fillBasisTable, halfSize, type RegularBasis } from './basis.js';
import { createSlopeSolver, type EdgeSlopes, type EdgeSystem, type SlopeSolver } from './edge-slopes.js';
import { type EdgeFold, holdsClass, solvedNodes } from './fold.js';
import { type HostResponse, writeAnswer } from './host-response.js';
import { chooseInnerPoint, type InnerPoint } from './inner-point.js';
import { addInnerPointTerm, writeEdgeMatrix } from './kernel.js';
import { type LocalEdge, toLocal } from './local-nodes.js';
import { type EdgeFields, fieldClasses, writeEdgeFields } from './regular-field.js';

/** One load on the edge: the undisturbed regular field and how the host answers. */
export interface EdgeLoad {
  /** Coefficients `[symmetric | antisymmetric]`, MPa. */
  readonly undisturbed: Float64Array;
  /** `undefined`: the host does not answer (an infinite sheet). */
  readonly response: HostResponse | undefined;
}

/** Boundary values of phi for every load, over the basis's length, at all nodes. Overwritten by the next call. */
export interface EdgeSolution {
  /** `(Re phi, Im phi)` node by node, MPa; one array per load. */
  readonly phi: readonly Float64Array[];
  /** Moments that the host sees, of all edges, one array per load, ordered as the coefficients (folded: of one class only). */
  readonly moments: readonly Float64Array[];
  /** The point inside the edge that it was solved with, mm; that of a `half` is used together with its mirror image. */
  readonly inner: Readonly<InnerPoint>;
  iterations: number;
  /** Largest relative residual; NaN when an outline cannot be solved. */
  residual: number;
}

export interface EdgeSolver {
  readonly count: number;
  readonly fold: EdgeFold;
  /**
   * Solves all loads at `nodes` (mm); allocates nothing. `near`: boundary values for a like outline under the same loads, as this or an earlier
   * solver of as many nodes gave them, to begin from.
   */
  solve(nodes: CurveNodes, loads: readonly EdgeLoad[], near?: readonly Float64Array[]): EdgeSolution;
  /**
   * Rates of what `solve` has found last, for the first `howMany` motions of its nodes (mm per unit of the motion): exact derivatives of the discrete equation, at a fixed inner
   * point. Loads as they were solved. Buffers grow with the largest batch; else nothing is allocated.
   */
  slopes(motions: NodeRates, howMany: number): EdgeSlopes;
}

const mostIterations = 100;

/**
 * Solver of `(I + K - H R Q) phi = H c0` for outlines of `count` nodes and up to `loadCount` loads, buffers included.
 * `tolerance` is the relative residual to reach. Folded, the host must be mirror-symmetric, and loads have fields of the class that the fold holds only; of a
 * `half` the outlines are mirror-symmetric too, and the first half of the nodes is solved for. Of a pair, outlines are given and solved on the right.
 */
export function createEdgeSolver(
  basis: RegularBasis,
  count: number,
  fold: EdgeFold,
  loadCount: number,
  tolerance: number,
): EdgeSolver {
  const local = createCurveNodes(count);
  const rows = solvedNodes(fold, count);
  const order = 2 * rows;
  const half = halfSize(basis.degree);
  const fieldCount = fold === 'whole' ? 2 * half : half;
  /** Where the fields that are solved for begin among all. */
  const firstField = holdsClass(fold, true) ? 0 : half;
  const matrix = new Float64Array(order * order);
  const functional = new Float64Array(order);
  const fields: EdgeFields = { H: new Float64Array(order * fieldCount), Q: new Float64Array(fieldCount * order) };
  const inner: InnerPoint = { x: 0, y: 0 };
  const localInner: InnerPoint = { x: 0, y: 0 };
  const table = createBasisTable(basis, rows);
  const gmres = createGmres(order, mostIterations, tolerance);
  const result: GmresResult = { iterations: 0, residual: 0 };
  const right = new Float64Array(order);
  const unknown = new Float64Array(order);
  const coefficients = new Float64Array(fieldCount);
  const answer = new Float64Array(order);
  const moments = Array.from({ length: loadCount }, () => new Float64Array(fieldCount));
  const phi = Array.from({ length: loadCount }, () => new Float64Array(2 * count));
  const solution: EdgeSolution = { phi, moments, inner, iterations: 0, residual: 0 };

  const edge: LocalEdge = { nodes: local, fold, inner: localInner };
  const classes = fieldClasses(table, fold);
  const system: EdgeSystem = { edge, length: basis.length, matrix, fields, classes, phi, moments };
  let solved: readonly EdgeLoad[] = [];
  let slopeSolver: SlopeSolver | undefined;
  let most = 0;
  let response: HostResponse | undefined;
  const moment = new Float64Array(fieldCount);
  const map = (x: Float64Array, out: Float64Array): void => {
    multiply(matrix, order, order, x, out);
    if (response === undefined) return;
    multiply(fields.Q, fieldCount, order, x, moment);
    writeAnswer(response, half, fold, moment, coefficients);
    multiply(fields.H, order, fieldCount, coefficients, answer);
    for (let i = 0; i < order; i++) out[i]! -= answer[i]!;
  };

  return {
    count,
    fold,
    solve(nodes, loads, near) {
      chooseInnerPoint(nodes, fold === 'half', inner);
      toLocal(nodes, basis, local);
      localInner.x = (inner.x - basis.centreX) / basis.length;
      localInner.y = (inner.y - basis.centreY) / basis.length;
      writeEdgeMatrix(local, fold, matrix);
      addInnerPointTerm(local, fold, localInner, functional, matrix);
      fillBasisTable(local, rows, localInner, table);
      for (const one of classes) writeEdgeFields(edge, one, fieldCount, fields);
      solved = loads;
      solution.iterations = 0;
      solution.residual = 0;
      for (let l = 0; l < loads.length; l++) {
        const load = loads[l]!;
        response = load.response;
        for (let f = 0; f < fieldCount; f++) coefficients[f] = load.undisturbed[firstField + f]!;
        multiply(fields.H, order, fieldCount, coefficients, right);
        if (near !== undefined) for (let i = 0; i < order; i++) unknown[i] = near[l]![i]!;
        gmres.solve(map, right, unknown, result, near !== undefined);
        solution.iterations += result.iterations;
        // Written so that a NaN stays.
        if (!(result.residual <= solution.residual)) solution.residual = result.residual;
        multiply(fields.Q, fieldCount, order, unknown, moments[l]!);
        spread(unknown, phi[l]!, count, fold === 'half');
      }
      return solution;
    },
    slopes(motions, howMany) {
      if (slopeSolver === undefined || howMany > most) {
        most = Math.max(most, howMany);
        slopeSolver = createSlopeSolver(system, loadCount, most);
      }
      return slopeSolver.slopes(solved, motions, howMany);
    },
  };
}

/** From the solved nodes to all nodes: `phi` at a mirror image is `-conj phi`. */
function spread(unknown: Float64Array, phi: Float64Array, count: number, mirror: boolean): void {
  phi.set(unknown);
  if (!mirror) return;
  for (let j = 0; j < count / 2; j++) {
    const image = count - 1 - j;
    phi[2 * image] = -unknown[2 * j]!;
    phi[2 * image + 1] = unknown[2 * j + 1]!;
  }
}
