import type { DenseMatrix } from './batch.js';

/** `sum over r of left[r] right[r]^T`, in rows. */
export interface LowRank {
  readonly left: readonly Float64Array[];
  readonly right: readonly Float64Array[];
}

/** The largest entry, sign apart. */
export function largestEntry(values: Float64Array): number {
  let largest = 0;
  for (const value of values) largest = Math.max(largest, Math.abs(value));
  return largest;
}

/**
 * A matrix as a sum of few outer products, by Gaussian elimination with full pivoting: exact up to entries of `limit`; undefined where `most` products
 * are not enough. Not for hot loops.
 */
export function lowRank({ values, rows, columns }: DenseMatrix, most: number, limit: number): LowRank | undefined {
  const rest = values.slice();
  const left: Float64Array[] = [];
  const right: Float64Array[] = [];
  const largest = (): number => {
    let at = 0;
    for (let i = 1; i < rest.length; i++) if (Math.abs(rest[i]!) > Math.abs(rest[at]!)) at = i;
    return at;
  };
  for (let at = largest(); Math.abs(rest[at]!) > limit; at = largest()) {
    if (left.length === most) return undefined;
    const row = Math.floor(at / columns);
    const column = at % columns;
    const pivot = rest[at]!;
    const rowValues = rest.slice(row * columns, (row + 1) * columns);
    const columnValues = Float64Array.from({ length: rows }, (_, i) => rest[i * columns + column]! / pivot);
    for (let i = 0; i < rows; i++)
      for (let j = 0; j < columns; j++) rest[i * columns + j]! -= columnValues[i]! * rowValues[j]!;
    left.push(columnValues);
    right.push(rowValues);
  }
  return { left, right };
}
