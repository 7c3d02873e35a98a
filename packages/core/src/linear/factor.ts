import { eliminate, tiled } from './cholesky.js';
import { dissect, type ElementTopology, type Front } from './dissection.js';

/** Element stiffness matrices, not yet summed. */
export interface ElementMatrices extends ElementTopology {
  /** One after the other, each row-major and square of its dof list's length; only the lower triangles are read. */
  readonly matrices: Float64Array;
}

export interface FactorOptions {
  /** Dofs kept to the end, in the order wanted for `schur`; they need not be positive definite (loads may be bordered in). */
  readonly retained?: ArrayLike<number>;
  /** Dofs held at zero. */
  readonly fixed?: ArrayLike<number>;
}

/**
 * Symmetric sparse direct solution, multifrontal (Duff & Reid, ACM Trans. Math. Softw. 9 (1983) 302-325). With interior
 * dofs i and retained dofs r, the sum of the elements is `[[Kii, Kir], [Kri, Krr]]`; `Kii` is factored.
 * Blocks of vectors are row-major, one row per dof, one column per vector.
 */
export interface Factor {
  readonly dofCount: number;
  readonly retained: Int32Array;
  /** `Krr - Kri Kii^-1 Kir`, row-major, full, in the order of `retained`. */
  readonly schur: Float64Array;
  /** Number of stored entries of the factor, for those who count memory. */
  readonly size: number;
  /**
   * All dofs (`dofCount x columns`) under loads on interior dofs (`dofCount x columns`; rows of retained and fixed dofs
   * are not read), retained dofs held at zero.
   */
  solve(loads: Float64Array, columns: number): Float64Array;
  /**
   * All dofs (`dofCount x columns`) from values of the retained ones (`retained.length x columns`), no loads. `wanted`: of others than these, rows may be
   * left at zero.
   */
  expand(values: Float64Array, columns: number, wanted?: Iterable<number>): Float64Array;
  /**
   * `loads_r - Kri Kii^-1 loads_i` (`retained.length x columns`): loads (`dofCount x columns`) carried to the retained
   * dofs, which then obey `schur u_r = reduced loads`; all dofs are the sum of `solve(loads)` and `expand(u_r)`.
   */
  reduceLoads(loads: Float64Array, columns: number): Float64Array;
}

/** Equations that have no unique solution. */
export class IndefiniteError extends Error {
  override readonly name = 'IndefiniteError';
}

/**
 * Factors a mesh of elements. Positive definite on the interior dofs: a free body needs pins among `fixed` or
 * `retained`. Throws `Error` naming the dof where a pivot is not positive, or where a dof belongs to no element.
 *
 * Two-dimensional meshes of q nodes cost about q^1.5 operations; a mesh of 20,000 dofs takes 0.2 s. ml-matrix has no
 * sparse solver: with 784 dofs its dense one takes 100 times as long (benchmarks/linear.js).
 */
export function factorize(elements: ElementMatrices, options: FactorOptions = {}): Factor {
  const { dofCount } = elements;
  const retained = Int32Array.from(options.retained ?? []);
  const kept = new Uint8Array(dofCount);
  const dropped = new Uint8Array(dofCount);
  for (const dof of retained) kept[dof] = 1;
  for (const dof of Int32Array.from(options.fixed ?? [])) dropped[dof] = 1;
  for (const dof of retained) if (dropped[dof] === 1) throw new Error(`dof ${dof} is both retained and fixed`);
  assertAllTouched(elements, kept, dropped);

  const fronts = dissect(elements, kept, dropped);
  const panels = eliminateAll(elements, fronts, kept);
  const schur = spread(panels.remainder, fronts.at(-1)?.border ?? new Int32Array(0), retained, dofCount);
  let size = 0;
  for (const panel of panels.columns) size += panel.length;

  return {
    dofCount,
    retained,
    schur,
    size,
    solve(loads, columns) {
      const block = loads.slice(0, dofCount * columns);
      clear(block, columns, dropped);
      forward(panels, block, columns);
      clear(block, columns, kept);
      backward(panels, block, columns);
      return block;
    },
    expand(values, columns, wanted) {
      const block = new Float64Array(dofCount * columns);
      retained.forEach((dof, r) => {
        block.set(values.subarray(r * columns, (r + 1) * columns), dof * columns);
      });
      backward(panels, block, columns, wanted && frontsFor(wanted, fronts, dofCount));
      return block;
    },
    reduceLoads(loads, columns) {
      const block = loads.slice(0, dofCount * columns);
      clear(block, columns, dropped);
      forward(panels, block, columns);
      const reduced = new Float64Array(retained.length * columns);
      retained.forEach((dof, r) => {
        reduced.set(block.subarray(dof * columns, (dof + 1) * columns), r * columns);
      });
      return reduced;
    },
  };
}

interface FactoredFronts {
  readonly fronts: readonly Front[];
  /** Cholesky columns of each. */
  readonly columns: readonly Float64Array[];
}

function forward({ fronts, columns }: FactoredFronts, block: Float64Array, count: number): void {
  for (let f = 0; f < fronts.length; f++) eliminateLoads(fronts[f]!, columns[f]!, block, count);
}

function backward({ fronts, columns }: FactoredFronts, block: Float64Array, count: number, asked?: Uint8Array): void {
  for (let f = fronts.length - 1; f >= 0; f--)
    if (asked === undefined || asked[f] === 1) substituteBack(fronts[f]!, columns[f]!, block, count);
}

/** Sets the rows of flagged dofs to zero. */
function clear(block: Float64Array, columns: number, flags: Uint8Array): void {
  for (let dof = 0; dof < flags.length; dof++) if (flags[dof] === 1) block.fill(0, dof * columns, (dof + 1) * columns);
}

/** The fronts (1) in which dofs are told: where they leave, and all that these end in. */
function frontsFor(dofs: Iterable<number>, fronts: readonly Front[], dofCount: number): Uint8Array {
  const wanted = new Uint8Array(dofCount);
  for (const dof of dofs) wanted[dof] = 1;
  const asked = new Uint8Array(fronts.length);
  fronts.forEach(({ pivots, children }, f) => {
    if (pivots.some((dof) => wanted[dof] === 1) || children.some((child) => asked[child] === 1)) asked[f] = 1;
  });
  return asked;
}

function assertAllTouched(elements: ElementMatrices, kept: Uint8Array, dropped: Uint8Array): void {
  const touched = new Uint8Array(elements.dofCount);
  for (const dof of elements.dofs) touched[dof] = 1;
  for (let dof = 0; dof < elements.dofCount; dof++)
    if (touched[dof] === 0 && kept[dof] === 0 && dropped[dof] === 0)
      throw new Error(`dof ${dof} belongs to no element`);
}

/** Cholesky columns of every front, and what is left on the root's border (lower triangle, padded to whole tiles). */
function eliminateAll(elements: ElementMatrices, fronts: readonly Front[], kept: Uint8Array) {
  const { offsets, dofs, matrices } = elements;
  const matrixOffsets = new Float64Array(offsets.length);
  for (let e = 0; e + 1 < offsets.length; e++)
    matrixOffsets[e + 1] = matrixOffsets[e]! + (offsets[e + 1]! - offsets[e]!) ** 2;
  const place = new Int32Array(elements.dofCount).fill(-1);
  const columns: Float64Array[] = [];
  const pending = new Map<number, Float64Array>();

  fronts.forEach((front, f) => {
    const pivotCount = tiled(front.pivots.length);
    const borderCount = tiled(front.border.length);
    const panel = new Float64Array((pivotCount + borderCount) * pivotCount);
    const border = new Float64Array(borderCount * borderCount);
    for (let p = front.pivots.length; p < pivotCount; p++) panel[p * pivotCount + p] = 1;
    front.pivots.forEach((dof, p) => {
      place[dof] = p;
    });
    front.border.forEach((dof, b) => {
      place[dof] = pivotCount + b;
    });
    const target = { panel, pivotCount, border, borderCount };
    for (const e of front.elements) {
      const count = offsets[e + 1]! - offsets[e]!;
      const at = new Int32Array(count);
      for (let k = 0; k < count; k++) at[k] = place[dofs[offsets[e]! + k]!]!;
      addTriangle(target, at, matrices.subarray(matrixOffsets[e]!, matrixOffsets[e + 1]!), count);
    }
    for (const child of front.children) {
      const at = fronts[child]!.border.map((dof) => place[dof]!);
      addTriangle(target, at, pending.get(child)!, tiled(at.length));
      pending.delete(child);
    }
    const failed = eliminate(panel, pivotCount, border, borderCount);
    if (failed >= 0)
      throw new IndefiniteError(
        `stiffness is not positive definite at dof ${front.pivots[failed]}: the body is not held, or an element is inverted`,
      );
    for (const dof of front.pivots) place[dof] = -1;
    for (const dof of front.border) if (kept[dof] === 0) place[dof] = -1;
    columns.push(panel);
    pending.set(f, border);
  });
  return { fronts, columns, remainder: pending.get(fronts.length - 1) ?? new Float64Array(0) };
}

/** A front's matrix: columns of its pivots, and what is left on its border. */
interface FrontMatrix {
  readonly panel: Float64Array;
  readonly pivotCount: number;
  readonly border: Float64Array;
  readonly borderCount: number;
}

/** Adds the lower triangle of a matrix whose row `i` belongs at `at[i]` (-1: dropped). */
function addTriangle(to: FrontMatrix, at: Int32Array, matrix: Float64Array, stride: number): void {
  const { panel, pivotCount, border, borderCount } = to;
  for (let i = 0; i < at.length; i++) {
    const row = at[i]!;
    if (row < 0) continue;
    for (let j = 0; j <= i; j++) {
      const column = at[j]!;
      if (column < 0) continue;
      // A dof listed twice (a collapsed side) takes both mirror entries.
      const value = matrix[i * stride + j]! * (row === column && i !== j ? 2 : 1);
      const high = Math.max(row, column);
      const low = Math.min(row, column);
      if (low < pivotCount) panel[high * pivotCount + low]! += value;
      else border[(high - pivotCount) * borderCount + low - pivotCount]! += value;
    }
  }
}

/** The root's border in the order of `retained`, both triangles; dofs that no element touches get zeros. */
function spread(remainder: Float64Array, border: Int32Array, retained: Int32Array, dofCount: number): Float64Array {
  const stride = tiled(border.length);
  const place = new Int32Array(dofCount).fill(-1);
  border.forEach((dof, b) => {
    place[dof] = b;
  });
  const order = retained.length;
  const full = new Float64Array(order * order);
  for (let i = 0; i < order; i++)
    for (let j = 0; j <= i; j++) {
      const row = place[retained[i]!]!;
      const column = place[retained[j]!]!;
      if (row < 0 || column < 0) continue;
      const value = remainder[Math.max(row, column) * stride + Math.min(row, column)]!;
      full[i * order + j] = value;
      full[j * order + i] = value;
    }
  return full;
}

/** `y_p = L11^-1 b_p`, `b_border -= L21 y_p`, in place. */
function eliminateLoads(front: Front, panel: Float64Array, block: Float64Array, columns: number): void {
  const { pivots, border } = front;
  const stride = tiled(pivots.length);
  for (let p = 0; p < pivots.length; p++) {
    const row = pivots[p]! * columns;
    for (let q = 0; q < p; q++) addMultiple(block, row, pivots[q]! * columns, -panel[p * stride + q]!, columns);
    const scale = 1 / panel[p * stride + p]!;
    for (let c = 0; c < columns; c++) block[row + c]! *= scale;
  }
  for (let b = 0; b < border.length; b++) {
    const row = border[b]! * columns;
    const at = (stride + b) * stride;
    for (let p = 0; p < pivots.length; p++) addMultiple(block, row, pivots[p]! * columns, -panel[at + p]!, columns);
  }
}

/** `x_p = L11^-T (y_p - L21^T x_border)`, in place; two rows by four at a time share their loads and stores. */
function substituteBack(front: Front, panel: Float64Array, block: Float64Array, columns: number): void {
  const { pivots, border } = front;
  const stride = tiled(pivots.length);
  const count = pivots.length;
  const below = new Int32Array(count + border.length);
  const at = new Int32Array(count + border.length);
  pivots.forEach((dof, q) => {
    below[q] = dof * columns;
    at[q] = q * stride;
  });
  border.forEach((dof, b) => {
    below[count + b] = dof * columns;
    at[count + b] = (stride + b) * stride;
  });
  const divide = (p: number) => {
    const row = below[p]!;
    const scale = 1 / panel[at[p]! + p]!;
    for (let c = 0; c < columns; c++) block[row + c]! *= scale;
  };
  let p = count - 1;
  for (; p > 0; p -= 2) {
    const [row, above] = [below[p]!, below[p - 1]!];
    let k = p + 1;
    for (; k + 3 < below.length; k += 4) {
      const [a0, a1, a2, a3] = [at[k]! + p, at[k + 1]! + p, at[k + 2]! + p, at[k + 3]! + p];
      const f0 = panel[a0]!;
      const f1 = panel[a1]!;
      const f2 = panel[a2]!;
      const f3 = panel[a3]!;
      const g0 = panel[a0 - 1]!;
      const g1 = panel[a1 - 1]!;
      const g2 = panel[a2 - 1]!;
      const g3 = panel[a3 - 1]!;
      const [r0, r1, r2, r3] = [below[k]!, below[k + 1]!, below[k + 2]!, below[k + 3]!];
      for (let c = 0; c < columns; c++) {
        const x0 = block[r0 + c]!;
        const x1 = block[r1 + c]!;
        const x2 = block[r2 + c]!;
        const x3 = block[r3 + c]!;
        block[row + c]! -= f0 * x0 + f1 * x1 + f2 * x2 + f3 * x3;
        block[above + c]! -= g0 * x0 + g1 * x1 + g2 * x2 + g3 * x3;
      }
    }
    for (; k < below.length; k++) {
      addMultiple(block, row, below[k]!, -panel[at[k]! + p]!, columns);
      addMultiple(block, above, below[k]!, -panel[at[k]! + p - 1]!, columns);
    }
    divide(p);
    addMultiple(block, above, row, -panel[at[p]! + p - 1]!, columns);
    divide(p - 1);
  }
  if (p === 0) {
    for (let k = 1; k < below.length; k++) addMultiple(block, below[0]!, below[k]!, -panel[at[k]!]!, columns);
    divide(0);
  }
}

function addMultiple(block: Float64Array, to: number, from: number, factor: number, columns: number): void {
  for (let c = 0; c < columns; c++) block[to + c]! += factor * block[from + c]!;
}
