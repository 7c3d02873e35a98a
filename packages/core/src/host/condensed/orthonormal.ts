import { Matrix, QrDecomposition } from 'ml-matrix';

export const rowsOf = (data: Float64Array, width: number): Matrix =>
  Matrix.from1DArray(data.length / width, width, data);

/** QR of the rows, each scaled to unit length first: `plain = factor^T orthonormal`. */
export function orthonormalise(plain: Matrix): { orthonormal: Matrix; factor: Matrix } {
  const scale = Array.from({ length: plain.rows }, (_, l) => Math.hypot(...plain.getRow(l)));
  const scaled = plain.transpose();
  scale.forEach((value, l) => {
    scaled.mulColumn(l, 1 / value);
  });
  const qr = new QrDecomposition(scaled);
  const factor = qr.upperTriangularMatrix.clone();
  scale.forEach((value, l) => {
    factor.mulColumn(l, value);
  });
  return { orthonormal: qr.orthogonalMatrix.transpose(), factor };
}

/** `matrix factor^-1` for an upper triangular factor. */
export function rightDivide(matrix: Matrix, factor: Matrix): Matrix {
  const out = matrix.clone();
  for (let i = 0; i < out.rows; i++)
    for (let j = 0; j < out.columns; j++) {
      let sum = out.get(i, j);
      for (let k = 0; k < j; k++) sum -= out.get(i, k) * factor.get(k, j);
      out.set(i, j, sum / factor.get(j, j));
    }
  return out;
}

/** `factor^-1 matrix` for an upper triangular factor. */
export function leftDivide(factor: Matrix, matrix: Matrix): Matrix {
  const out = matrix.clone();
  for (let i = out.rows - 1; i >= 0; i--)
    for (let j = 0; j < out.columns; j++) {
      let sum = out.get(i, j);
      for (let k = i + 1; k < out.rows; k++) sum -= factor.get(i, k) * out.get(k, j);
      out.set(i, j, sum / factor.get(i, i));
    }
  return out;
}
