/** `sum over r of left[r] right[r]^T`, in rows. */
export interface LowRank {
  readonly left: readonly Float64Array[];
  readonly right: readonly Float64Array[];
}

/**
 * A square matrix (row-major) as a sum of few outer products, by Gaussian elimination with full pivoting: exact up to `tolerance` of its largest
 * entry; undefined where `most` products are not enough. Not for hot loops.
 */
export function lowRank(matrix: Float64Array, size: number, most: number, tolerance: number): LowRank | undefined {
  const rest = matrix.slice();
  const left: Float64Array[] = [];
  const right: Float64Array[] = [];
  const largest = (): number => {
    let at = 0;
    for (let i = 1; i < rest.length; i++) if (Math.abs(rest[i]!) > Math.abs(rest[at]!)) at = i;
    return at;
  };
  const limit = tolerance * Math.abs(rest[largest()]!);
  for (let at = largest(); Math.abs(rest[at]!) > limit; at = largest()) {
    if (left.length === most) return undefined;
    const row = Math.floor(at / size);
    const column = at % size;
    const pivot = rest[at]!;
    const rowValues = rest.slice(row * size, (row + 1) * size);
    const columnValues = Float64Array.from({ length: size }, (_, i) => rest[i * size + column]! / pivot);
    for (let i = 0; i < size; i++)
      for (let j = 0; j < size; j++) rest[i * size + j]! -= columnValues[i]! * rowValues[j]!;
    left.push(columnValues);
    right.push(rowValues);
  }
  return { left, right };
}
