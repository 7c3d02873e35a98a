/**
 * Factors a dense matrix (row-major, in place) into a unit lower and an upper triangle, without pivoting, four pivots a sweep, which saves three quarters of the
 * loads and stores of the plain loop: 5 to 9 times as fast as ml-matrix (benchmarks/linear.js). For boundary integral equations of the second kind, identity plus double layer: they
 * are diagonally dominant on convex outlines and need no pivoting on others.
 */
export function factorLu(matrix: Float64Array, size: number): void {
  let k = 0;
  for (; k + 3 < size; k += 4) factorFour(matrix, size, k);
  for (; k < size; k++) factorOne(matrix, size, k, size);
}

/** Pivot `k` on the rows up to `last`. */
function factorOne(matrix: Float64Array, size: number, k: number, last: number): void {
  const pivotRow = k * size;
  const inverse = 1 / matrix[pivotRow + k]!;
  for (let i = k + 1; i < last; i++) {
    const row = i * size;
    const factor = matrix[row + k]! * inverse;
    matrix[row + k] = factor;
    for (let j = k + 1; j < size; j++) matrix[row + j]! -= factor * matrix[pivotRow + j]!;
  }
}

/** Pivots `k` to `k + 3`: first among their own four rows, then every row below in one sweep. */
function factorFour(matrix: Float64Array, size: number, k: number): void {
  for (let p = k; p < k + 4; p++) factorOne(matrix, size, p, k + 4);
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
    matrix[row + k] = f0;
    matrix[row + k + 1] = f1;
    matrix[row + k + 2] = f2;
    matrix[row + k + 3] = f3;
    for (let j = k + 4; j < size; j++)
      matrix[row + j]! -= f0 * matrix[r0 + j]! + f1 * matrix[r1 + j]! + f2 * matrix[r2 + j]! + f3 * matrix[r3 + j]!;
  }
}

/** Solves `matrix x = right` in place for each of `count` rows of right sides, with the factors that `factorLu` has left. */
export function solveLu(factors: Float64Array, size: number, rights: Float64Array, count: number): void {
  let p = 0;
  for (; p + 3 < count; p += 4) solveFour(factors, size, rights, p * size);
  for (; p < count; p++) solveOne(factors, size, rights, p * size);
}

function solveOne(factors: Float64Array, size: number, rights: Float64Array, at: number): void {
  for (let i = 1; i < size; i++) {
    let sum = rights[at + i]!;
    for (let j = 0, row = i * size; j < i; j++) sum -= factors[row + j]! * rights[at + j]!;
    rights[at + i] = sum;
  }
  for (let i = size - 1; i >= 0; i--) {
    const row = i * size;
    let sum = rights[at + i]!;
    for (let j = i + 1; j < size; j++) sum -= factors[row + j]! * rights[at + j]!;
    rights[at + i] = sum / factors[row + i]!;
  }
}

/**
 * Four right sides at once, two rows at a time: eight sums in registers. Each way is a function of its own: engines that compile a running loop (V8 does) leave compiled code behind it,
 * every time, where a second loop follows.
 */
function solveFour(factors: Float64Array, size: number, rights: Float64Array, at: number): void {
  goDown(factors, size, rights, at);
  goUp(factors, size, rights, at);
}

/** By the lower triangle. */
function goDown(factors: Float64Array, size: number, rights: Float64Array, at: number): void {
  const r0 = at;
  const r1 = r0 + size;
  const r2 = r1 + size;
  const r3 = r2 + size;
  let i = 0;
  for (; i + 1 < size; i += 2) {
    const a = i * size;
    const b = a + size;
    let a0 = rights[r0 + i]!;
    let a1 = rights[r1 + i]!;
    let a2 = rights[r2 + i]!;
    let a3 = rights[r3 + i]!;
    let b0 = rights[r0 + i + 1]!;
    let b1 = rights[r1 + i + 1]!;
    let b2 = rights[r2 + i + 1]!;
    let b3 = rights[r3 + i + 1]!;
    for (let j = 0; j < i; j++) {
      const top = factors[a + j]!;
      const bottom = factors[b + j]!;
      const x0 = rights[r0 + j]!;
      const x1 = rights[r1 + j]!;
      const x2 = rights[r2 + j]!;
      const x3 = rights[r3 + j]!;
      a0 -= top * x0;
      a1 -= top * x1;
      a2 -= top * x2;
      a3 -= top * x3;
      b0 -= bottom * x0;
      b1 -= bottom * x1;
      b2 -= bottom * x2;
      b3 -= bottom * x3;
    }
    const link = factors[b + i]!;
    rights[r0 + i] = a0;
    rights[r1 + i] = a1;
    rights[r2 + i] = a2;
    rights[r3 + i] = a3;
    rights[r0 + i + 1] = b0 - link * a0;
    rights[r1 + i + 1] = b1 - link * a1;
    rights[r2 + i + 1] = b2 - link * a2;
    rights[r3 + i + 1] = b3 - link * a3;
  }
  for (let q = i; q < size; q++)
    for (let r = r0; r <= r3; r += size) {
      let sum = rights[r + q]!;
      for (let j = 0, row = q * size; j < q; j++) sum -= factors[row + j]! * rights[r + j]!;
      rights[r + q] = sum;
    }
}

/** By the upper triangle. */
function goUp(factors: Float64Array, size: number, rights: Float64Array, at: number): void {
  const r0 = at;
  const r1 = r0 + size;
  const r2 = r1 + size;
  const r3 = r2 + size;
  let i = size - 1;
  for (; i >= 1; i -= 2) {
    const b = i * size;
    const a = b - size;
    let a0 = rights[r0 + i - 1]!;
    let a1 = rights[r1 + i - 1]!;
    let a2 = rights[r2 + i - 1]!;
    let a3 = rights[r3 + i - 1]!;
    let b0 = rights[r0 + i]!;
    let b1 = rights[r1 + i]!;
    let b2 = rights[r2 + i]!;
    let b3 = rights[r3 + i]!;
    for (let j = i + 1; j < size; j++) {
      const top = factors[a + j]!;
      const bottom = factors[b + j]!;
      const x0 = rights[r0 + j]!;
      const x1 = rights[r1 + j]!;
      const x2 = rights[r2 + j]!;
      const x3 = rights[r3 + j]!;
      a0 -= top * x0;
      a1 -= top * x1;
      a2 -= top * x2;
      a3 -= top * x3;
      b0 -= bottom * x0;
      b1 -= bottom * x1;
      b2 -= bottom * x2;
      b3 -= bottom * x3;
    }
    const lower = 1 / factors[b + i]!;
    const upper = 1 / factors[a + i - 1]!;
    const link = factors[a + i]!;
    b0 *= lower;
    b1 *= lower;
    b2 *= lower;
    b3 *= lower;
    rights[r0 + i] = b0;
    rights[r1 + i] = b1;
    rights[r2 + i] = b2;
    rights[r3 + i] = b3;
    rights[r0 + i - 1] = (a0 - link * b0) * upper;
    rights[r1 + i - 1] = (a1 - link * b1) * upper;
    rights[r2 + i - 1] = (a2 - link * b2) * upper;
    rights[r3 + i - 1] = (a3 - link * b3) * upper;
  }
  if (i === 0)
    for (let r = r0; r <= r3; r += size) {
      let sum = rights[r]!;
      for (let j = 1; j < size; j++) sum -= factors[j]! * rights[r + j]!;
      rights[r] = sum / factors[0]!;
    }
}
