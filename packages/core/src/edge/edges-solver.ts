import {
  createGmres,
  type DenseMatrix,
  type GmresResult,
  type LinearMap,
  multiplyEach,
  sharedRoom,
} from '../linear/index.js';
import { type CurveNodes, createCurveNodes, type NodeRates } from '../outline/index.js';
import { type AxialGain, addField, axialOf, productWith, writeAxialGain } from './axial.js';
import { createBasisTable, fillBasisTable, halfSize, type RegularBasis } from './basis.js';
import type { EdgePart, EdgeSlopes, EdgeSystem, ExactSlopes, SlopeSolver } from './edge-slopes.js';
import { type EdgeFold, holdsClass, isHalf, solvedNodes } from './fold.js';
import { type HostResponse, writeAnswer } from './host-response.js';
import { chooseInnerPoint, type InnerPoint } from './inner-point.js';
import { addInnerPointTerm, writeEdgeMatrix, writeOtherEdge } from './kernel.js';
import { toLocal } from './local-nodes.js';
import { type EdgeFields, fieldClasses, writeEdgeFields } from './regular-field.js';

/** One load on edges: the undisturbed regular field and how the host answers. */
export interface EdgeLoad {
  /** Coefficients `[symmetric | antisymmetric]`, MPa. */
  readonly undisturbed: Float64Array;
  /** `undefined`: the host does not answer (an infinite sheet). */
  readonly response: HostResponse | undefined;
  /** Along the channel, without it, where nothing is stressed in the section's plane: see `AxialAnswer`. MPa; default 0. */
  readonly axialStress?: number;
}

/** Boundary values of phi for every load, over the basis's length, at all nodes. Overwritten by the next call. */
export interface EdgesSolution {
  /** `(Re phi, Im phi)` node by node, edge by edge, MPa; one array per load. */
  readonly phi: readonly Float64Array[];
  /** Moments that the host sees, of all edges, one array per load, ordered as the coefficients (folded: of one class only). */
  readonly moments: readonly Float64Array[];
  /** By how much the host strains otherwise along the channel than without it, load by load. */
  readonly strains: Float64Array;
  /** The point inside each edge that it was solved with, mm; that of a `half` is used together with its mirror image. */
  readonly inners: readonly Readonly<InnerPoint>[];
  iterations: number;
  /** Largest relative residual; NaN when an outline cannot be solved. */
  residual: number;
}

/** Solves edges together. */
export interface EdgesSolver {
  /**
   * Solves all loads at the `nodes` of each edge (mm); allocates nothing. `near`: boundary values for like outlines under the same loads, as this or an earlier
   * solver of as many nodes gave them, to begin from.
   */
  solve(nodes: readonly CurveNodes[], loads: readonly EdgeLoad[], near?: readonly Float64Array[]): EdgesSolution;
  /**
   * Rates of what `solve` has found last, for the first `howMany` motions of the nodes of each edge (mm per unit of the motion): exact derivatives of the discrete equation, at fixed inner
   * points. Loads as they were solved. Buffers grow with the largest batch; else nothing is allocated.
   */
  slopes(motions: readonly NodeRates[], howMany: number): EdgeSlopes;
}

/** How edges are solved. */
export interface EdgeSolving {
  /** Relative residual to reach. */
  readonly tolerance: number;
  /** What `slopes` asks; left out where nobody does. */
  readonly slopes?: ExactSlopes | undefined;
}

const mostIterations = 100;

/** Room for the matrix of the edges that were written last in this thread; for antisymmetric fields another, since a group is solved for both by turns. */
const rooms = [sharedRoom(), sharedRoom()] as const;
const holders: unknown[] = [];

/** An edge among others, with the views of what is written of it. */
interface SolvedPart extends EdgePart {
  readonly inner: InnerPoint;
  readonly localInner: InnerPoint;
  readonly matrix: Float64Array;
  readonly fields: EdgeFields;
}

/**
 * Solver of `(I + K - H R Q) phi = H c0` for outlines of `count` nodes each and up to `loadCount` loads, buffers included; `folds`: what is solved for of each edge.
 * Folded, all edges together and the host must be mirror-symmetric, and loads have fields of the class that the folds hold only; of a
 * `half` the outlines are mirror-symmetric too, and the first half of the nodes is solved for. Of a pair, outlines are given and solved on the right.
 */
export function createEdgesSolver(
  basis: RegularBasis,
  count: number,
  folds: readonly EdgeFold[],
  loadCount: number,
  { tolerance, slopes: exact }: EdgeSolving,
): EdgesSolver {
  const fold = folds[0]!;
  const order = folds.reduce((sum, one) => sum + 2 * solvedNodes(one, count), 0);
  const half = halfSize(basis.degree);
  const fieldCount = fold === 'whole' ? 2 * half : half;
  const room = holdsClass(fold, true) ? 0 : 1;
  /** Where the fields that are solved for begin among all. */
  const firstField = room * half;
  const matrix = rooms[room](order * order);
  const functional = new Float64Array(order);
  const fields: EdgeFields = { H: new Float64Array(order * fieldCount), Q: new Float64Array(fieldCount * order) };
  const gmres = createGmres(order, mostIterations, tolerance);
  const perLoad = (length: number) => Array.from({ length: loadCount }, () => new Float64Array(length));
  const results = Array.from({ length: loadCount }, (): GmresResult => ({ iterations: 0, residual: 0 }));
  const [rights, unknowns, coefficients] = [perLoad(order), perLoad(order), perLoad(fieldCount)];
  const moments = perLoad(fieldCount);
  const phi = perLoad(2 * count * folds.length);

  const parts = partsOf(basis, count, folds, { matrix, fields, phi, order, fieldCount });
  const edges = parts.map(({ edge }) => edge);
  const strains = new Float64Array(loadCount);
  const inners = parts.map(({ inner }) => inner);
  const solution: EdgesSolution = { phi, moments, strains, inners, iterations: 0, residual: 0 };
  const system: EdgeSystem = { parts, matrix, fields, phi, moments, strains };
  let slopeSolver: SlopeSolver | undefined;
  let most = 0;
  const gains = Array.from({ length: loadCount }, (): AxialGain => ({ perStress: 0, perProduct: 0, perArea: 0 }));
  const toMoments: DenseMatrix = { values: fields.Q, rows: fieldCount, columns: order };
  const fromFields: DenseMatrix = { values: fields.H, rows: order, columns: fieldCount };
  const acting: { loads: readonly EdgeLoad[]; readonly gains: readonly AxialGain[] } = { loads: [], gains };
  const every = gains.map((_, l) => l);
  const map = createEdgeMap({ matrix, toMoments, fromFields, coefficients }, fold, acting);

  let written: readonly CurveNodes[] = [];
  /** Writes matrix and fields of the edges at `nodes`. */
  const write = (nodes: readonly CurveNodes[]): void => {
    holders[room] = parts;
    written = nodes;
    for (let k = 0; k < parts.length; k++) writePart(parts[k]!, nodes[k]!, basis, order, fieldCount);
    for (const to of parts)
      for (const from of parts)
        if (from !== to)
          writeOtherEdge(to.edge, from.edge, matrix.subarray(2 * to.before * order + 2 * from.before), order);
    for (let k = 0; k < parts.length; k++) addInnerPointTerm(edges, k, functional, matrix);
  };

  return {
    solve(nodes, loads, near) {
      write(nodes);
      acting.loads = loads;
      solution.iterations = 0;
      solution.residual = 0;
      const all = loads.length === loadCount ? every : every.slice(0, loads.length);
      for (const l of all) {
        const { undisturbed, response, axialStress = 0 } = loads[l]!;
        const axial = axialOf(response?.axial, fold);
        for (let f = 0; f < fieldCount; f++) coefficients[l]![f] = undisturbed[firstField + f]!;
        if (axial !== undefined) {
          writeAxialGain(axial, edges, basis.length, gains[l]!);
          addField(axial, gains[l]!.perStress * axialStress, coefficients[l]!);
        }
        if (near !== undefined) gather(near[l]!, parts, unknowns[l]!);
      }
      multiplyEach(fromFields, coefficients, rights, all);
      gmres.solve(map, all === every ? rights : rights.slice(0, loads.length), unknowns, results, near !== undefined);
      multiplyEach(toMoments, unknowns, moments, all);
      for (const l of all) {
        const { response, axialStress = 0 } = loads[l]!;
        const axial = axialOf(response?.axial, fold);
        solution.iterations += results[l]!.iterations;
        // Written so that a NaN stays.
        if (!(results[l]!.residual <= solution.residual)) solution.residual = results[l]!.residual;
        strains[l] =
          axial === undefined
            ? 0
            : gains[l]!.perStress * axialStress + gains[l]!.perProduct * productWith(axial, moments[l]!);
        for (const part of parts) spread(unknowns[l]!, part, part.phi[l]!);
      }
      return solution;
    },
    slopes(motions, howMany) {
      if (exact === undefined) throw new Error('slopes need a model with { slopes: exactSlopes }');
      // Another one may have been solved since.
      if (holders[room] !== parts) write(written);
      if (slopeSolver === undefined || howMany > most) {
        most = Math.max(most, howMany);
        slopeSolver = exact.create(system, loadCount, most);
      }
      return slopeSolver.slopes(acting.loads, motions, howMany);
    },
  };
}

/** The matrices of the equation, of all edges. */
interface EdgeMatrices {
  readonly matrix: Float64Array;
  readonly toMoments: DenseMatrix;
  readonly fromFields: DenseMatrix;
  /** Room for the regular field of each load; overwritten. */
  readonly coefficients: readonly Float64Array[];
}

/** `I + K - H R Q` of the loads that act, each with the response of its host. */
function createEdgeMap(
  { matrix, toMoments, fromFields, coefficients }: EdgeMatrices,
  fold: EdgeFold,
  acting: { readonly loads: readonly EdgeLoad[]; readonly gains: readonly AxialGain[] },
): LinearMap {
  const { rows: order, columns: fieldCount } = fromFields;
  const half = fold === 'whole' ? fieldCount / 2 : fieldCount;
  const whole: DenseMatrix = { values: matrix, rows: order, columns: order };
  const moments = coefficients.map(() => new Float64Array(fieldCount));
  const answers = coefficients.map(() => new Float64Array(order));
  const answering: number[] = [];
  return (from, to, which) => {
    const { loads, gains } = acting;
    multiplyEach(whole, from, to, which);
    answering.length = 0;
    for (const l of which) if (loads[l]!.response !== undefined) answering.push(l);
    multiplyEach(toMoments, from, moments, answering);
    for (const l of answering) {
      const response = loads[l]!.response!;
      writeAnswer(response, half, fold, moments[l]!, coefficients[l]!);
      const axial = axialOf(response.axial, fold);
      if (axial !== undefined)
        addField(axial, gains[l]!.perProduct * productWith(axial, moments[l]!), coefficients[l]!);
    }
    multiplyEach(fromFields, coefficients, answers, answering);
    for (const l of answering) {
      const [out, answer] = [to[l]!, answers[l]!];
      for (let i = 0; i < order; i++) out[i]! -= answer[i]!;
    }
  };
}

/** What edges are written into, all of them together. */
interface Together extends Pick<EdgeSystem, 'matrix' | 'fields' | 'phi'> {
  readonly order: number;
  readonly fieldCount: number;
}

function partsOf(
  basis: RegularBasis,
  count: number,
  folds: readonly EdgeFold[],
  { matrix, fields: { H, Q }, phi, order, fieldCount }: Together,
): readonly SolvedPart[] {
  let next = 0;
  return folds.map((fold, k) => {
    const rows = solvedNodes(fold, count);
    const before = next;
    next += rows;
    const localInner: InnerPoint = { x: 0, y: 0 };
    return {
      edge: { nodes: createCurveNodes(count), fold, inner: localInner },
      classes: fieldClasses(createBasisTable(basis, rows), fold),
      ...{ rows, before, localInner, inner: { x: 0, y: 0 } },
      phi: phi.map((values) => values.subarray(2 * count * k, 2 * count * (k + 1))),
      matrix: matrix.subarray(2 * before * (order + 1)),
      fields: { H: H.subarray(2 * before * fieldCount), Q: Q.subarray(2 * before), order },
    };
  });
}

/** Writes an edge's own matrix, and its fields. */
function writePart(part: SolvedPart, nodes: CurveNodes, basis: RegularBasis, order: number, fieldCount: number): void {
  const { edge, inner, localInner, classes } = part;
  chooseInnerPoint(nodes, isHalf(edge.fold), inner);
  toLocal(nodes, basis, edge.nodes);
  localInner.x = (inner.x - basis.centreX) / basis.length;
  localInner.y = (inner.y - basis.centreY) / basis.length;
  writeEdgeMatrix(edge.nodes, edge.fold, part.matrix, order);
  fillBasisTable(edge.nodes, part.rows, localInner, classes[0]!.table);
  for (const one of classes) writeEdgeFields(edge, one, fieldCount, part.fields);
}

/** From all nodes to those that are solved for. */
function gather(phi: Float64Array, parts: readonly EdgePart[], unknown: Float64Array): void {
  for (let k = 0; k < parts.length; k++) {
    const { edge, rows, before } = parts[k]!;
    const from = 2 * edge.nodes.count * k;
    for (let i = 0; i < 2 * rows; i++) unknown[2 * before + i] = phi[from + i]!;
  }
}

/** From the solved nodes of an edge to all of its nodes: `phi` at a mirror image is `-+ conj phi`. */
function spread(unknown: Float64Array, { edge, rows, before }: EdgePart, phi: Float64Array): void {
  for (let i = 0; i < 2 * rows; i++) phi[i] = unknown[2 * before + i]!;
  const { fold, nodes } = edge;
  if (!isHalf(fold)) return;
  const sign = holdsClass(fold, true) ? 1 : -1;
  for (let j = 0; j < rows; j++) {
    const image = nodes.count - 1 - j;
    phi[2 * image] = -sign * phi[2 * j]!;
    phi[2 * image + 1] = sign * phi[2 * j + 1]!;
  }
}
