import type { DenseMatrix } from './batch.js';

/**
 * `plain = factor^T orthonormal`, `factor` upper triangular: Gram-Schmidt on the rows, twice, after which they are orthogonal to rounding
 * unless they depend on each other to the last digit (Giraud, Langou & Rozloznik, Comput. Math. Appl. 50 (2005) 1069-1075). Four finished rows at a time are
 * taken out of a row, which takes half as long as one by one. Of rows as different in length as one likes.
 */
export function orthonormalise(plain: DenseMatrix): { orthonormal: DenseMatrix; factor: DenseMatrix } {
  const { rows, columns } = plain;
  const q = plain.values.slice();
  const factor = new Float64Array(rows * rows);
  const shares = new Float64Array(4);
  for (let l = 0; l < rows; l++) {
    const row = l * columns;
    for (let pass = 0; pass < 2; pass++)
      for (let p = 0; p < l; p += 4) {
        // Fewer than four are left: the others, not yet finished, take no part.
        const count = Math.min(4, l - p);
        if (count === 4) takeOutFour(q, p * columns, row, columns, shares);
        else for (let k = 0; k < count; k++) shares[k] = takeOut(q, (p + k) * columns, row, columns);
        for (let k = 0; k < count; k++) factor[(p + k) * rows + l]! += shares[k]!;
      }
    let square = 0;
    for (let k = 0; k < columns; k++) square += q[row + k]! * q[row + k]!;
    const length = Math.sqrt(square);
    factor[l * rows + l] = length;
    for (let k = 0; k < columns; k++) q[row + k]! /= length;
  }
  return { orthonormal: { ...plain, values: q }, factor: { values: factor, rows, columns: rows } };
}

/** Takes the share of the unit vector at `a` out of the vector at `row`. */
function takeOut(q: Float64Array, a: number, row: number, length: number): number {
  let share = 0;
  for (let k = 0; k < length; k++) share += q[a + k]! * q[row + k]!;
  for (let k = 0; k < length; k++) q[row + k]! -= share * q[a + k]!;
  return share;
}

/** The same with four unit vectors that follow each other. */
function takeOutFour(q: Float64Array, a: number, row: number, length: number, shares: Float64Array): void {
  const b = a + length;
  const c = b + length;
  const d = c + length;
  let ofA = 0;
  let ofB = 0;
  let ofC = 0;
  let ofD = 0;
  for (let k = 0; k < length; k++) {
    const value = q[row + k]!;
    ofA += q[a + k]! * value;
    ofB += q[b + k]! * value;
    ofC += q[c + k]! * value;
    ofD += q[d + k]! * value;
  }
  for (let k = 0; k < length; k++) q[row + k]! -= ofA * q[a + k]! + ofB * q[b + k]! + ofC * q[c + k]! + ofD * q[d + k]!;
  shares[0] = ofA;
  shares[1] = ofB;
  shares[2] = ofC;
  shares[3] = ofD;
}

/** `matrix factor^-1` for an upper triangular factor. */
export function rightDivide(matrix: DenseMatrix, { values: f }: DenseMatrix): DenseMatrix {
  const { rows, columns } = matrix;
  const out = matrix.values.slice();
  for (let i = 0; i < rows; i++)
    for (let j = 0; j < columns; j++) {
      let sum = out[i * columns + j]!;
      for (let k = 0; k < j; k++) sum -= out[i * columns + k]! * f[k * columns + j]!;
      out[i * columns + j] = sum / f[j * columns + j]!;
    }
  return { ...matrix, values: out };
}

/** `factor^-1 matrix` for an upper triangular factor. */
export function leftDivide({ values: f }: DenseMatrix, matrix: DenseMatrix): DenseMatrix {
  const { rows, columns } = matrix;
  const out = matrix.values.slice();
  for (let i = rows - 1; i >= 0; i--) {
    for (let k = i + 1; k < rows; k++) {
      const share = f[i * rows + k]!;
      for (let j = 0; j < columns; j++) out[i * columns + j]! -= share * out[k * columns + j]!;
    }
    for (let j = 0; j < columns; j++) out[i * columns + j]! /= f[i * rows + i]!;
  }
  return { ...matrix, values: out };
}
