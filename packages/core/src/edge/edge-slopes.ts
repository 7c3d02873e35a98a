import { factorLu, type LowRank, lowRank, multiply, multiplyBatch, solveLu } from '../linear/index.js';
import type { CurveNodes, NodeRates } from '../outline/index.js';
import { type BasisTable, halfSize } from './basis.js';
import type { EdgeLoad } from './edge-solver.js';
import { addFieldRates, writeMomentRates } from './field-rates.js';
import { type EdgeFold, holdsClass, solvedNodes } from './fold.js';
import { createHoopRates } from './hoop-rates.js';
import { type HostResponse, responseBlocks, writeAnswer } from './host-response.js';
import type { InnerPoint } from './inner-point.js';
import { writeEdgeRates } from './kernel-rates.js';
import type { EdgeFields } from './regular-field.js';

/** The discrete equation of one edge in local coordinates, `matrix phi - H R Q phi = H c0`, as a solver has left it. */
export interface EdgeSystem {
  readonly count: number;
  readonly fold: EdgeFold;
  /** mm */
  readonly length: number;
  readonly local: CurveNodes;
  readonly inner: InnerPoint;
  readonly matrix: Float64Array;
  readonly fields: EdgeFields;
  readonly table: BasisTable;
  /** What was solved, one array per load: values at all nodes, and what the host sees of them. */
  readonly phi: readonly Float64Array[];
  readonly moments: readonly Float64Array[];
}

/** Rates of what a solution says of an edge, for a batch of motions: one array per load, one row to a motion. Overwritten by the next call. */
export interface EdgeSlopes {
  /** Of the hoop stress at the solved nodes (of a mirror-symmetric edge, the first half). MPa per unit of the motion */
  readonly hoop: readonly Float64Array[];
  /** The same half way to the next node. */
  readonly halfway: readonly Float64Array[];
  /** Of the moments that the host sees, of one load: worked out when asked for (the peak needs none), before the next solve. */
  moments(load: number): Float64Array;
  /** Boundary values of phi as `EdgeSolution` has them, and their rates at the solved nodes, `(Re, Im)` node by node. */
  readonly phi: readonly Float64Array[];
  readonly phiRates: readonly Float64Array[];
}

/** Solves `(A - H R Q) x = right` for many right sides, one factorisation for responses that differ little. */
interface Factors {
  readonly response: HostResponse | undefined;
  /** `A - H R Q` factored. */
  readonly lu: Float64Array;
  /** `H R`, `order x fields`. */
  readonly answer: Float64Array;
}

/** A response that differs from another by few outer products (clamped and free supports: three, two of them symmetric): by Woodbury's formula. */
interface Correction {
  readonly response: HostResponse;
  readonly base: Factors;
  readonly difference: LowRank;
  /** `H left` and `right Q` of each product. */
  readonly shifted: readonly Float64Array[];
  readonly seen: readonly Float64Array[];
  /** `(A - H R Q)^-1 H left` of the base, product by product, and the factors of `1 - right Q (A - H R Q)^-1 H left`. */
  readonly solved: Float64Array;
  readonly small: Float64Array;
}

/** Outer products beyond which a factorisation of its own is as quick, and what counts as none of the largest entry. */
const mostProducts = 8;
const negligible = 1e-12;

export interface SlopeSolver {
  slopes(loads: readonly EdgeLoad[], motions: NodeRates, howMany: number): EdgeSlopes;
}

/**
 * Slopes of the discrete equation, derived here: differentiated it reads `M phi' = -A' phi + H' c + H R (Q' phi)`, `M = A - H R Q`, with the whole regular field
 * `c = c0 + R Q phi`. Buffers for up to `most` motions and `loadCount` loads.
 */
export function createSlopeSolver(system: EdgeSystem, loadCount: number, most: number): SlopeSolver {
  const { count, fold, length, local, inner, matrix, fields, table, phi, moments } = system;
  const rows = solvedNodes(fold, count);
  const order = 2 * rows;
  const half = halfSize(table.basis.degree);
  const fieldCount = fold === 'whole' ? 2 * half : half;
  /** Where the fields that are solved for begin among all. */
  const firstField = holdsClass(fold, true) ? 0 : half;
  const stride = 4 * rows;
  const velocities = new Float64Array(most * stride);
  /** Right side and moments that a unit velocity gives: `order` and `fieldCount` rows. */
  const sideRates = new Float64Array(order * stride);
  const momentRates = new Float64Array(fieldCount * stride);
  const transposedQ = new Float64Array(order * fieldCount);
  const hostPart = new Float64Array(order * order);
  const rates = Array.from({ length: loadCount }, () => new Float64Array(most * order));
  const moved = Array.from({ length: loadCount }, () => new Float64Array(most * fieldCount));
  const complete = new Uint8Array(loadCount);
  let latest = 0;
  const coefficients = new Float64Array(fieldCount);
  const answered = new Float64Array(fieldCount);
  const reader = createHoopRates(count, fold === 'half', most);
  const out: EdgeSlopes = {
    hoop: Array.from({ length: loadCount }, () => new Float64Array(most * rows)),
    halfway: Array.from({ length: loadCount }, () => new Float64Array(most * rows)),
    moments(load) {
      // Moments follow the motion and the values: Q' phi + Q phi'.
      const all = moved[load]!;
      if (complete[load] === 0)
        multiplyBatch(fields.Q, fieldCount, order, rates[load]!, 0, order, latest, all, 0, fieldCount, true);
      complete[load] = 1;
      return all;
    },
    phi,
    phiRates: rates,
  };
  const factored: Factors[] = [];
  const corrections: Correction[] = [];
  /** What each response is solved by; made when a response is first seen. */
  const known = new Map<HostResponse | undefined, Factors | Correction>();

  const prepare = (response: HostResponse | undefined): Factors | Correction => {
    const found = known.get(response);
    if (found !== undefined) return found;
    if (response !== undefined)
      for (const base of factored) {
        const difference = base.response && differenceOf(base.response, response, fieldCount, fold);
        if (difference === undefined) continue;
        const rank = difference.left.length;
        const vectors = () => Array.from({ length: rank }, () => new Float64Array(order));
        const [shifted, seen] = [vectors(), vectors()];
        const [solved, small] = [new Float64Array(rank * order), new Float64Array(rank * rank)];
        const correction = { response, base, difference, shifted, seen, solved, small };
        corrections.push(correction);
        known.set(response, correction);
        return correction;
      }
    const factors = { response, lu: new Float64Array(order * order), answer: new Float64Array(order * fieldCount) };
    factored.push(factors);
    known.set(response, factors);
    return factors;
  };

  const factor = ({ response, lu, answer }: Factors): void => {
    lu.set(matrix);
    if (response !== undefined) {
      const blocks = responseBlocks(response, fold);
      const size = fieldCount / blocks.length;
      blocks.forEach((block, b) => {
        multiplyBatch(block, size, size, fields.H, b * size, fieldCount, order, answer, b * size, fieldCount);
      });
      multiplyBatch(transposedQ, order, fieldCount, answer, 0, fieldCount, order, hostPart, 0, order);
      for (let i = 0; i < lu.length; i++) lu[i]! -= hostPart[i]!;
    }
    factorLu(lu, order);
  };

  const correct = ({ base, difference, shifted, seen, solved, small }: Correction): void => {
    const { left, right } = difference;
    const rank = left.length;
    for (let r = 0; r < rank; r++) {
      multiply(fields.H, order, fieldCount, left[r]!, shifted[r]!);
      multiply(transposedQ, order, fieldCount, right[r]!, seen[r]!);
      solved.set(shifted[r]!, r * order);
    }
    solveLu(base.lu, order, solved, rank);
    for (let a = 0; a < rank; a++)
      for (let b = 0; b < rank; b++)
        small[a * rank + b] = (a === b ? 1 : 0) - dotAt(seen[a]!, 0, solved, b * order, order);
    factorLu(small, rank);
  };
  const few = new Float64Array(mostProducts);

  /** Adds `H R` times the rates of the moments, then solves: sides become rates of phi. */
  const finish = (
    solver: Factors | Correction,
    moments: Float64Array,
    phiRates: Float64Array,
    howMany: number,
  ): void => {
    const base = 'base' in solver ? solver.base : solver;
    if (base.response !== undefined)
      multiplyBatch(base.answer, order, fieldCount, moments, 0, fieldCount, howMany, phiRates, 0, order, true);
    if ('base' in solver) {
      const { difference, shifted } = solver;
      for (let p = 0; p < howMany; p++)
        for (let r = 0; r < shifted.length; r++)
          addTo(
            phiRates,
            p * order,
            shifted[r]!,
            0,
            dotAt(difference.right[r]!, 0, moments, p * fieldCount, fieldCount),
            order,
          );
    }
    solveLu(base.lu, order, phiRates, howMany);
    if (!('base' in solver)) return;
    const { seen, solved, small } = solver;
    const rank = seen.length;
    for (let p = 0; p < howMany; p++) {
      for (let r = 0; r < rank; r++) few[r] = dotAt(seen[r]!, 0, phiRates, p * order, order);
      solveLu(small, rank, few, 1);
      for (let r = 0; r < rank; r++) addTo(phiRates, p * order, solved, r * order, few[r]!, order);
    }
  };

  return {
    slopes(loads, motions, howMany) {
      latest = howMany;
      complete.fill(0);
      packVelocities(motions, count, rows, howMany, 1 / length, velocities);
      for (let i = 0; i < order; i++)
        for (let f = 0; f < fieldCount; f++) transposedQ[i * fieldCount + f] = fields.Q[f * order + i]!;
      reader.take(local, motions.dx, motions.dy, howMany, length);
      for (const load of loads) prepare(load.response);
      for (const base of factored) factor(base);
      for (const correction of corrections) correct(correction);
      for (let l = 0; l < loads.length; l++) {
        const { response, undisturbed } = loads[l]!;
        coefficients.set(undisturbed.subarray(firstField, firstField + fieldCount));
        if (response !== undefined) {
          writeAnswer(response, half, fold, moments[l]!, answered);
          for (let f = 0; f < fieldCount; f++) coefficients[f]! += answered[f]!;
        }
        writeEdgeRates(local, fold, inner, phi[l]!, stride, sideRates);
        addFieldRates(local, fold, table, coefficients, stride, sideRates);
        for (const symmetric of [true, false])
          if (holdsClass(fold, symmetric))
            writeMomentRates(
              local,
              fold,
              table,
              symmetric,
              phi[l]!,
              symmetric ? 0 : half - firstField,
              stride,
              momentRates,
            );
        const [phiRates, seen] = [rates[l]!, moved[l]!];
        multiplyBatch(sideRates, order, stride, velocities, 0, stride, howMany, phiRates, 0, order);
        multiplyBatch(momentRates, fieldCount, stride, velocities, 0, stride, howMany, seen, 0, fieldCount);
        finish(known.get(response)!, seen, phiRates, howMany);
        reader.write(phi[l]!, phiRates, out.hoop[l]!, out.halfway[l]!);
      }
      return out;
    },
  };
}

/** Velocities of the solved nodes in local coordinates, `(x, y, dx, dy)` node by node, one row to a motion. */
function packVelocities(
  { x, y, dx, dy }: NodeRates,
  count: number,
  rows: number,
  howMany: number,
  scale: number,
  out: Float64Array,
): void {
  for (let p = 0, to = 0; p < howMany; p++)
    for (let j = p * count; j < p * count + rows; j++) {
      out[to++] = scale * x[j]!;
      out[to++] = scale * y[j]!;
      out[to++] = scale * dx[j]!;
      out[to++] = scale * dy[j]!;
    }
}

/** How one response differs from another of its form, all blocks in one; undefined where that takes many products. */
function differenceOf(base: HostResponse, other: HostResponse, size: number, fold: EdgeFold): LowRank | undefined {
  const [blocks, others] = [responseBlocks(base, fold), responseBlocks(other, fold)];
  if (blocks.length !== others.length) return undefined;
  const own = size / blocks.length;
  const left: Float64Array[] = [];
  const right: Float64Array[] = [];
  for (let b = 0; b < blocks.length; b++) {
    const part = lowRank(
      others[b]!.map((value, i) => value - blocks[b]![i]!),
      own,
      mostProducts - left.length,
      negligible,
    );
    if (part === undefined) return undefined;
    const placed = (vector: Float64Array) => {
      const whole = new Float64Array(size);
      whole.set(vector, b * own);
      return whole;
    };
    left.push(...part.left.map(placed));
    right.push(...part.right.map(placed));
  }
  return { left, right };
}

function dotAt(a: Float64Array, fromA: number, b: Float64Array, fromB: number, size: number): number {
  let sum = 0;
  for (let i = 0; i < size; i++) sum += a[fromA + i]! * b[fromB + i]!;
  return sum;
}

function addTo(target: Float64Array, to: number, a: Float64Array, from: number, factor: number, size: number): void {
  for (let i = 0; i < size; i++) target[to + i]! += factor * a[from + i]!;
}
