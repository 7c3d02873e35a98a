import type { DenseMatrix } from './batch.js';

/**
 * `plain = factor^T orthonormal`, `factor` upper triangular: modified Gram-Schmidt on the rows, twice, after which they are orthogonal to rounding
 * unless they depend on each other to the last digit (Giraud, Langou & Rozloznik, Comput. Math. Appl. 50 (2005) 1069-1075). Of rows as different in length as one likes.
 */
export function orthonormalise(plain: DenseMatrix): { orthonormal: DenseMatrix; factor: DenseMatrix } {
  const { rows, columns } = plain;
  const q = plain.values.slice();
  const factor = new Float64Array(rows * rows);
  const product = (a: number, b: number): number => {
    let sum = 0;
    for (let k = 0; k < columns; k++) sum += q[a + k]! * q[b + k]!;
    return sum;
  };
  for (let l = 0; l < rows; l++) {
    const row = l * columns;
    for (let pass = 0; pass < 2; pass++)
      for (let p = 0; p < l; p++) {
        const other = p * columns;
        const share = product(other, row);
        factor[p * rows + l]! += share;
        for (let k = 0; k < columns; k++) q[row + k]! -= share * q[other + k]!;
      }
    const length = Math.sqrt(product(row, row));
    factor[l * rows + l] = length;
    for (let k = 0; k < columns; k++) q[row + k]! /= length;
  }
  return { orthonormal: { ...plain, values: q }, factor: { values: factor, rows, columns: rows } };
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
