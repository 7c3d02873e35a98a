/**
 * Solves the dense system `matrix * x = right` of `size` unknowns (row-major) in place: `right` becomes `x`,
 * `matrix` is spent.
 *
 * Gaussian elimination without pivoting, four pivots a sweep, which saves three quarters of the loads and stores of the
 * plain loop: 5 to 9 times as fast as ml-matrix's LU (benchmarks/linear.js). For systems of the second kind, identity plus
 * double layer: diagonally dominant on convex outlines, and in need of no pivoting on others.
 */
export function eliminate(matrix: Float64Array, right: Float64Array, size: number): void {
  let k = 0;
  for (; k + 3 < size; k += 4) eliminateFour(matrix, right, size, k);
  for (; k < size; k++) {
    const pivotRow = k * size;
    const inverse = 1 / matrix[pivotRow + k]!;
    for (let i = k + 1; i < size; i++) {
      const row = i * size;
      const factor = matrix[row + k]! * inverse;
      for (let j = k + 1; j < size; j++) matrix[row + j]! -= factor * matrix[pivotRow + j]!;
      right[i]! -= factor * right[k]!;
    }
  }
  for (let i = size - 1; i >= 0; i--) {
    const row = i * size;
    let sum = right[i]!;
    for (let j = i + 1; j < size; j++) sum -= matrix[row + j]! * right[j]!;
    right[i] = sum / matrix[row + i]!;
  }
}

/** Pivots `k` to `k + 3`: first among their own four rows, then every row below in one sweep. */
function eliminateFour(matrix: Float64Array, right: Float64Array, size: number, k: number): void {
  for (let p = k; p < k + 4; p++) {
    const pivotRow = p * size;
    const inverse = 1 / matrix[pivotRow + p]!;
    for (let i = p + 1; i < k + 4; i++) {
      const row = i * size;
      const factor = matrix[row + p]! * inverse;
      for (let j = p + 1; j < size; j++) matrix[row + j]! -= factor * matrix[pivotRow + j]!;
      right[i]! -= factor * right[p]!;
    }
  }
  const r0 = k * size;
  const r1 = r0 + size;
  const r2 = r1 + size;
  const r3 = r2 + size;
  const inverse0 = 1 / matrix[r0 + k]!;
  const u01 = matrix[r0 + k + 1]!;
  const u02 = matrix[r0 + k + 2]!;
  const u03 = matrix[r0 + k + 3]!;
  const inverse1 = 1 / matrix[r1 + k + 1]!;
  const u12 = matrix[r1 + k + 2]!;
  const u13 = matrix[r1 + k + 3]!;
  const inverse2 = 1 / matrix[r2 + k + 2]!;
  const u23 = matrix[r2 + k + 3]!;
  const inverse3 = 1 / matrix[r3 + k + 3]!;
  for (let i = k + 4; i < size; i++) {
    const row = i * size;
    const f0 = matrix[row + k]! * inverse0;
    const f1 = (matrix[row + k + 1]! - f0 * u01) * inverse1;
    const f2 = (matrix[row + k + 2]! - f0 * u02 - f1 * u12) * inverse2;
    const f3 = (matrix[row + k + 3]! - f0 * u03 - f1 * u13 - f2 * u23) * inverse3;
    for (let j = k + 4; j < size; j++)
      matrix[row + j]! -= f0 * matrix[r0 + j]! + f1 * matrix[r1 + j]! + f2 * matrix[r2 + j]! + f3 * matrix[r3 + j]!;
    right[i]! -= f0 * right[k]! + f1 * right[k + 1]! + f2 * right[k + 2]! + f3 * right[k + 3]!;
  }
}
