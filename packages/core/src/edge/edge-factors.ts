import {
  type DenseMatrix,
  factorLu,
  largestEntry,
  lowRank,
  matrixOf,
  multiply,
  multiplyBatch,
  rowsIn,
  solveLu,
} from '../linear/index.js';
import { type AxialAnswer, type AxialGain, addField, axialOf, writeAxialGain } from './axial.js';
import type { RegularBasis } from './basis.js';
import type { EdgeFold } from './fold.js';
import { type HostResponse, responseBlocks } from './host-response.js';
import type { LocalEdge } from './local-nodes.js';
import type { EdgeFields } from './regular-field.js';

/** The discrete equation of one edge, `matrix phi - H R Q phi = H c`: the parts that an outline fixes. */
export interface EdgeEquation {
  readonly edges: readonly LocalEdge[];
  readonly basis: RegularBasis;
  /** Unknowns, and fields of the classes that are solved for. */
  readonly order: number;
  readonly fieldCount: number;
  readonly matrix: Float64Array;
  readonly fields: EdgeFields;
}

/** Solves for many right sides under several responses, of the outline that was factored last. */
export interface EdgeFactors {
  /** Factors the equation as it is now, for these responses; others may be added later. Buffers are kept. */
  factor(responses: Iterable<HostResponse | undefined>): void;
  /**
   * For `count` right sides, one a row, given without the host's part: adds `H R` times the rows of `moments`, then solves in place. A multiple of four rows goes
   * fastest.
   */
  finish(response: HostResponse | undefined, moments: Float64Array, count: number, rights: Float64Array): void;
}

/** `A - H R Q` factored, of one response. */
interface Factored {
  readonly response: HostResponse | undefined;
  readonly lu: Float64Array;
  /** `H R`, `order x fields`; R with what the strain along the channel adds. */
  readonly answer: DenseMatrix;
}

/** An outer product of fields that one response has more than another: as it is, or times what an edge makes of a strain along the channel. */
interface Product {
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly axial?: AxialAnswer;
}

/**
 * A response that differs from another by few outer products (clamped and free supports: three, two of them symmetric, and one each for the strain
 * along the channel): by Woodbury's formula.
 */
interface Corrected {
  readonly base: Factored;
  readonly products: readonly Product[];
  /** `H left` and `right Q` of each product. */
  readonly shifted: readonly Float64Array[];
  readonly seen: readonly Float64Array[];
  /** `(A - H R Q)^-1 H left` of the base, product by product (`batch` holds them all), and the factors of `1 - right Q (A - H R Q)^-1 H left`. */
  readonly solved: readonly Float64Array[];
  readonly batch: Float64Array;
  readonly small: Float64Array;
}

/** Outer products beyond which a factorisation of its own is as quick, and what counts as none of the largest entry. */
const mostProducts = 8;
const negligible = 1e-12;

export function createEdgeFactors(equation: EdgeEquation): EdgeFactors {
  const { edges, basis, order, fieldCount, matrix, fields } = equation;
  const [{ fold }] = edges as readonly [LocalEdge];
  const transposedQ: DenseMatrix = { values: new Float64Array(order * fieldCount), rows: order, columns: fieldCount };
  const hostPart = new Float64Array(order * order);
  const few = new Float64Array(mostProducts + 2);
  const gain: AxialGain = { perStress: 0, perProduct: 0, perArea: 0 };
  const gainOf = (axial: AxialAnswer): number => {
    writeAxialGain(axial, edges, basis.length, gain);
    return gain.perProduct;
  };
  const unit = new Float64Array(fieldCount);
  const onEdge = new Float64Array(order);
  /** What each response is solved by, bases before what corrects them; made when a response is first seen. */
  const known = new Map<HostResponse | undefined, Factored | Corrected>();

  const begin = (response: HostResponse | undefined): Factored | Corrected => {
    for (const base of known.values()) {
      if (response === undefined || 'base' in base || base.response === undefined) continue;
      const products = differenceOf(base.response, response, fold);
      if (products === undefined) continue;
      const rank = products.length;
      const vectors = () => Array.from({ length: rank }, () => new Float64Array(order));
      const [batch, small] = [new Float64Array(rank * order), new Float64Array(rank * rank)];
      const solved = Array.from({ length: rank }, (_, r) => batch.subarray(r * order, (r + 1) * order));
      return { base, products, shifted: vectors(), seen: vectors(), solved, batch, small };
    }
    const answer = { values: new Float64Array(order * fieldCount), rows: order, columns: fieldCount };
    return { response, lu: new Float64Array(order * order), answer };
  };

  const factor = ({ response, lu, answer }: Factored): void => {
    lu.set(matrix);
    if (response !== undefined) {
      const blocks = responseBlocks(response, fold);
      const size = fieldCount / blocks.length;
      blocks.forEach((values, b) => {
        const [from, to] = [fields.H, answer.values].map((all) => ({ values: all, at: b * size, stride: fieldCount }));
        multiplyBatch({ values, rows: size, columns: size }, from!, order, to!);
      });
      const axial = axialOf(response.axial, fold);
      if (axial !== undefined) {
        addField(axial, gainOf(axial), unit.fill(0));
        multiply(fields.H, order, fieldCount, unit, onEdge);
        for (let i = 0; i < order; i++) addScaled(onEdge[i]!, axial.field, answer.values, i * fieldCount);
      }
      multiplyBatch(transposedQ, rowsIn(answer.values, fieldCount), order, rowsIn(hostPart, order));
      for (let i = 0; i < lu.length; i++) lu[i]! -= hostPart[i]!;
    }
    factorLu(lu, order);
  };

  const correct = ({ base, products, shifted, seen, solved, batch, small }: Corrected): void => {
    const rank = products.length;
    for (let r = 0; r < rank; r++) {
      const { left, right, axial } = products[r]!;
      multiply(fields.H, order, fieldCount, left, shifted[r]!);
      const factor = axial === undefined ? 1 : gainOf(axial);
      for (let i = 0; i < order; i++) shifted[r]![i]! *= factor;
      multiply(transposedQ.values, order, fieldCount, right, seen[r]!);
      solved[r]!.set(shifted[r]!);
    }
    solveLu(base.lu, order, batch, rank);
    for (let a = 0; a < rank; a++)
      for (let b = 0; b < rank; b++) small[a * rank + b] = (a === b ? 1 : 0) - dotAt(seen[a]!, solved[b]!, 0);
    factorLu(small, rank);
  };

  return {
    factor(responses) {
      writeTransposed(fields.Q, transposedQ);
      for (const response of responses) if (!known.has(response)) known.set(response, begin(response));
      for (const one of known.values()) {
        if ('base' in one) correct(one);
        else factor(one);
      }
    },
    finish(response, moments, count, rights) {
      const solver = known.get(response)!;
      const corrected = 'base' in solver ? solver : undefined;
      const { response: own, answer, lu } = corrected?.base ?? (solver as Factored);
      if (own !== undefined) multiplyBatch(answer, rowsIn(moments, fieldCount), count, rowsIn(rights, order), true);
      corrected?.shifted.forEach((shift, r) => {
        const { right } = corrected.products[r]!;
        for (let p = 0; p < count; p++) addScaled(dotAt(right, moments, p * fieldCount), shift, rights, p * order);
      });
      solveLu(lu, order, rights, count);
      if (corrected === undefined) return;
      const { seen, solved, small } = corrected;
      const rank = seen.length;
      for (let p = 0; p < count; p++) {
        for (let r = 0; r < rank; r++) few[r] = dotAt(seen[r]!, rights, p * order);
        solveLu(small, rank, few, 1);
        for (let r = 0; r < rank; r++) addScaled(few[r]!, solved[r]!, rights, p * order);
      }
    },
  };
}

/** Writes a matrix whose transposed one stands in `from`. */
function writeTransposed(from: Float64Array, { values, rows, columns }: DenseMatrix): void {
  for (let i = 0; i < rows; i++) for (let f = 0; f < columns; f++) values[i * columns + f] = from[f * rows + i]!;
}

/** How one response differs from another of its form, all blocks in one; undefined where that takes many products. */
function differenceOf(base: HostResponse, other: HostResponse, fold: EdgeFold): readonly Product[] | undefined {
  const [blocks, others] = [responseBlocks(base, fold), responseBlocks(other, fold)];
  if (blocks.length !== others.length) return undefined;
  const own = Math.sqrt(blocks[0]!.length);
  const fieldCount = own * blocks.length;
  const products: Product[] = [];
  for (let b = 0; b < blocks.length; b++) {
    const difference = others[b]!.map((value, i) => value - blocks[b]![i]!);
    const limit = negligible * largestEntry(difference);
    const part = lowRank(matrixOf(difference, own), mostProducts - products.length, limit);
    if (part === undefined) return undefined;
    const placed = (vector: Float64Array) => {
      const whole = new Float64Array(fieldCount);
      whole.set(vector, b * own);
      return whole;
    };
    part.left.forEach((left, r) => {
      products.push({ left: placed(left), right: placed(part.right[r]!) });
    });
  }
  return [...products, ...axialProducts(axialOf(base.axial, fold), axialOf(other.axial, fold), fieldCount)];
}

/** What the strain along the channel adds to one response, less what it adds to the other. */
function axialProducts(
  base: AxialAnswer | undefined,
  other: AxialAnswer | undefined,
  fieldCount: number,
): readonly Product[] {
  if (base === other) return [];
  return [
    ...(base === undefined ? [] : [{ axial: base, sign: -1 }]),
    ...(other === undefined ? [] : [{ axial: other, sign: 1 }]),
  ].map(({ axial, sign }) => {
    const [left, right] = [new Float64Array(fieldCount), new Float64Array(fieldCount)];
    addField(axial, sign, left);
    addField(axial, 1, right);
    return { left, right, axial };
  });
}

/** Product of a vector with what stands in `of` from `from` on. */
function dotAt(vector: Float64Array, of: Float64Array, from: number): number {
  let sum = 0;
  for (let i = 0; i < vector.length; i++) sum += vector[i]! * of[from + i]!;
  return sum;
}

function addScaled(factor: number, vector: Float64Array, target: Float64Array, to: number): void {
  for (let i = 0; i < vector.length; i++) target[to + i]! += factor * vector[i]!;
}
