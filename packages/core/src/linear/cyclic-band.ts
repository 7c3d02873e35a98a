/** Neighbours that a row of the matrix reaches, on each side: cubic B-splines overlap three further ones. */
const reach = 3;
/** Half the bandwidth once the ring of rows is folded flat. */
const band = 2 * reach;

/**
 * A symmetric positive definite matrix in which row `i` meets rows `i - 3` to `i + 3` of a ring. Folded flat (0, n - 1, 1, n - 2, ...)
 * the ring becomes a band, which Cholesky's method keeps: with 128 rows 100 times as fast as ml-matrix, which knows no bands
 * (benchmarks/linear.js).
 */
export interface CyclicBand {
  readonly order: number;
  /** Lower band of the folded matrix: entry `(r, c)` at `r * 7 + r - c`. */
  readonly entries: Float64Array;
}

export function createCyclicBand(order: number): CyclicBand {
  return { order, entries: new Float64Array(order * (band + 1)) };
}

/** Where row `i` of the ring lies in the folded order. */
function folded(i: number, order: number): number {
  return 2 * i < order ? 2 * i : 2 * (order - 1 - i) + 1;
}

/** Adds to the entry of rows `i` and `j`; call it once for the pair. */
export function addEntry({ order, entries }: CyclicBand, i: number, j: number, value: number): void {
  const a = folded(i, order);
  const b = folded(j, order);
  entries[Math.max(a, b) * (band + 1) + Math.abs(a - b)]! += value;
}

/** Solves for several right sides, in place; the matrix is overwritten by its factor. */
export function solveCyclicBand({ order, entries }: CyclicBand, sides: readonly Float64Array[]): void {
  const width = band + 1;
  for (let r = 0; r < order; r++)
    for (let c = Math.max(0, r - band); c <= r; c++) {
      let sum = entries[r * width + r - c]!;
      for (let k = Math.max(0, r - band); k < c; k++) sum -= entries[r * width + r - k]! * entries[c * width + c - k]!;
      entries[r * width + r - c] = c === r ? Math.sqrt(sum) : sum / entries[c * width]!;
    }
  const flat = new Float64Array(order);
  for (const side of sides) {
    for (let i = 0; i < order; i++) flat[folded(i, order)] = side[i]!;
    for (let r = 0; r < order; r++) {
      for (let c = Math.max(0, r - band); c < r; c++) flat[r]! -= entries[r * width + r - c]! * flat[c]!;
      flat[r]! /= entries[r * width]!;
    }
    for (let r = order - 1; r >= 0; r--) {
      for (let c = r + 1; c <= Math.min(order - 1, r + band); c++) flat[r]! -= entries[c * width + c - r]! * flat[c]!;
      flat[r]! /= entries[r * width]!;
    }
    for (let i = 0; i < order; i++) side[i] = flat[folded(i, order)]!;
  }
}
