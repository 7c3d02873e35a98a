/**
 * Dense partial Cholesky elimination in tiles of 4 x 4: all arithmetic is sums of products of matrix rows, held in 16
 * local variables (plain loops run at a tenth of the speed, ml-matrix's Cholesky at a half with 48 unknowns and a seventh with
 * 192: benchmarks/linear.js).
 */

/** Rounds up to whole tiles. */
export const tiled = (count: number): number => (count + 3) & ~3;

const sums = new Float64Array(16);

/** `sums[4 r + c] = row (a + r) . row (b + c)` over the first `length` entries. */
function tileProduct(P: Float64Array, a0: number, b0: number, stride: number, length: number): void {
  const a1 = a0 + stride;
  const a2 = a1 + stride;
  const a3 = a2 + stride;
  const b1 = b0 + stride;
  const b2 = b1 + stride;
  const b3 = b2 + stride;
  let c00 = 0;
  let c01 = 0;
  let c02 = 0;
  let c03 = 0;
  let c10 = 0;
  let c11 = 0;
  let c12 = 0;
  let c13 = 0;
  let c20 = 0;
  let c21 = 0;
  let c22 = 0;
  let c23 = 0;
  let c30 = 0;
  let c31 = 0;
  let c32 = 0;
  let c33 = 0;
  for (let k = 0; k < length; k++) {
    const x0 = P[a0 + k]!;
    const x1 = P[a1 + k]!;
    const x2 = P[a2 + k]!;
    const x3 = P[a3 + k]!;
    const y0 = P[b0 + k]!;
    c00 += x0 * y0;
    c10 += x1 * y0;
    c20 += x2 * y0;
    c30 += x3 * y0;
    const y1 = P[b1 + k]!;
    c01 += x0 * y1;
    c11 += x1 * y1;
    c21 += x2 * y1;
    c31 += x3 * y1;
    const y2 = P[b2 + k]!;
    c02 += x0 * y2;
    c12 += x1 * y2;
    c22 += x2 * y2;
    c32 += x3 * y2;
    const y3 = P[b3 + k]!;
    c03 += x0 * y3;
    c13 += x1 * y3;
    c23 += x2 * y3;
    c33 += x3 * y3;
  }
  sums[0] = c00;
  sums[1] = c01;
  sums[2] = c02;
  sums[3] = c03;
  sums[4] = c10;
  sums[5] = c11;
  sums[6] = c12;
  sums[7] = c13;
  sums[8] = c20;
  sums[9] = c21;
  sums[10] = c22;
  sums[11] = c23;
  sums[12] = c30;
  sums[13] = c31;
  sums[14] = c32;
  sums[15] = c33;
}

/**
 * Eliminates the pivots of a front in place. `panel` holds the pivot columns: `pivotCount + borderCount` rows (pivots
 * first), row-major; `border` the lower triangle of the rest, row-major. Both counts are whole tiles (pad with unit
 * pivots and zero rows). Afterwards `panel` holds the Cholesky columns (lower triangle) and `border` the Schur
 * complement (lower triangle). Returns the index of the first pivot that is not positive, or -1.
 */
export function eliminate(panel: Float64Array, pivotCount: number, border: Float64Array, borderCount: number): number {
  const stride = pivotCount;
  const rows = pivotCount + borderCount;
  for (let j = 0; j < pivotCount; j += 4) {
    const diagonal = j * stride + j;
    tileProduct(panel, j * stride, j * stride, stride, j);
    for (let r = 0; r < 4; r++) for (let c = 0; c <= r; c++) panel[diagonal + r * stride + c]! -= sums[4 * r + c]!;
    for (let c = 0; c < 4; c++) {
      const row = diagonal + c * stride;
      let pivot = panel[row + c]!;
      for (let k = 0; k < c; k++) pivot -= panel[row + k]! * panel[row + k]!;
      if (!(pivot > 0)) return j + c;
      const root = Math.sqrt(pivot);
      panel[row + c] = root;
      for (let r = c + 1; r < 4; r++) {
        const lower = diagonal + r * stride;
        let value = panel[lower + c]!;
        for (let k = 0; k < c; k++) value -= panel[lower + k]! * panel[row + k]!;
        panel[lower + c] = value / root;
      }
    }
    const i0 = 1 / panel[diagonal]!;
    const l10 = panel[diagonal + stride]!;
    const i1 = 1 / panel[diagonal + stride + 1]!;
    const l20 = panel[diagonal + 2 * stride]!;
    const l21 = panel[diagonal + 2 * stride + 1]!;
    const i2 = 1 / panel[diagonal + 2 * stride + 2]!;
    const l30 = panel[diagonal + 3 * stride]!;
    const l31 = panel[diagonal + 3 * stride + 1]!;
    const l32 = panel[diagonal + 3 * stride + 2]!;
    const i3 = 1 / panel[diagonal + 3 * stride + 3]!;
    for (let i = j + 4; i < rows; i += 4) {
      tileProduct(panel, i * stride, j * stride, stride, j);
      for (let r = 0; r < 4; r++) {
        const at = (i + r) * stride + j;
        const v0 = (panel[at]! - sums[4 * r]!) * i0;
        const v1 = (panel[at + 1]! - sums[4 * r + 1]! - v0 * l10) * i1;
        const v2 = (panel[at + 2]! - sums[4 * r + 2]! - v0 * l20 - v1 * l21) * i2;
        panel[at] = v0;
        panel[at + 1] = v1;
        panel[at + 2] = v2;
        panel[at + 3] = (panel[at + 3]! - sums[4 * r + 3]! - v0 * l30 - v1 * l31 - v2 * l32) * i3;
      }
    }
  }
  for (let i = 0; i < borderCount; i += 4)
    for (let j = 0; j <= i; j += 4) {
      tileProduct(panel, (pivotCount + i) * stride, (pivotCount + j) * stride, stride, pivotCount);
      for (let r = 0; r < 4; r++) {
        const at = (i + r) * borderCount + j;
        border[at]! -= sums[4 * r]!;
        border[at + 1]! -= sums[4 * r + 1]!;
        border[at + 2]! -= sums[4 * r + 2]!;
        border[at + 3]! -= sums[4 * r + 3]!;
      }
    }
  return -1;
}
