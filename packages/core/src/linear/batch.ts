/** A dense matrix, row-major. */
export interface DenseMatrix {
  readonly values: Float64Array;
  readonly rows: number;
  readonly columns: number;
}

/** Rows of numbers in a longer array: the first begins at `at`, each `stride` after the one before it. */
export interface Rows {
  readonly values: Float64Array;
  readonly at: number;
  readonly stride: number;
}

/** Rows that fill an array. */
export const rowsIn = (values: Float64Array, stride: number): Rows => ({ values, at: 0, stride });

/**
 * `out = matrix * row` for each of `count` rows of a batch: `out[p][i] = sum over c of matrix[i][c] batch[p][c]`. Two rows of the matrix by four of the batch
 * at a time stay in registers; the rows of the batch that are left over go by four rows of the matrix each. Zeros with which four rows begin cost nothing. With `add`,
 * what stands in `out` is added to.
 */
export function multiplyBatch(matrix: DenseMatrix, batch: Rows, count: number, out: Rows, add = false): void {
  let p = 0;
  for (; p + 3 < count; p += 4) multiplyFour(matrix, batch, p, out, add);
  for (; p < count; p++) multiplyOne(matrix, batch, p, out, add);
}

/** Rows `p` to `p + 3` of the batch. */
function multiplyFour(
  { values: matrix, rows, columns }: DenseMatrix,
  { values: batch, at, stride }: Rows,
  p: number,
  { values: out, at: outAt, stride: outStride }: Rows,
  add: boolean,
): void {
  const v0 = at + p * stride;
  const v1 = v0 + stride;
  const v2 = v1 + stride;
  const v3 = v2 + stride;
  const o0 = outAt + p * outStride;
  const o1 = o0 + outStride;
  const o2 = o1 + outStride;
  const o3 = o2 + outStride;
  let first = 0;
  while (
    first < columns &&
    batch[v0 + first]! === 0 &&
    batch[v1 + first]! === 0 &&
    batch[v2 + first]! === 0 &&
    batch[v3 + first]! === 0
  )
    first++;
  let i = 0;
  for (; i + 1 < rows; i += 2) {
    const a = i * columns;
    const b = a + columns;
    let a0 = 0;
    let a1 = 0;
    let a2 = 0;
    let a3 = 0;
    let b0 = 0;
    let b1 = 0;
    let b2 = 0;
    let b3 = 0;
    for (let c = first; c < columns; c++) {
      const top = matrix[a + c]!;
      const bottom = matrix[b + c]!;
      const x0 = batch[v0 + c]!;
      const x1 = batch[v1 + c]!;
      const x2 = batch[v2 + c]!;
      const x3 = batch[v3 + c]!;
      a0 += top * x0;
      a1 += top * x1;
      a2 += top * x2;
      a3 += top * x3;
      b0 += bottom * x0;
      b1 += bottom * x1;
      b2 += bottom * x2;
      b3 += bottom * x3;
    }
    if (add) {
      a0 += out[o0 + i]!;
      a1 += out[o1 + i]!;
      a2 += out[o2 + i]!;
      a3 += out[o3 + i]!;
      b0 += out[o0 + i + 1]!;
      b1 += out[o1 + i + 1]!;
      b2 += out[o2 + i + 1]!;
      b3 += out[o3 + i + 1]!;
    }
    out[o0 + i] = a0;
    out[o1 + i] = a1;
    out[o2 + i] = a2;
    out[o3 + i] = a3;
    out[o0 + i + 1] = b0;
    out[o1 + i + 1] = b1;
    out[o2 + i + 1] = b2;
    out[o3 + i + 1] = b3;
  }
  for (let o = o0, v = v0; i < rows && o <= o3; o += outStride, v += stride) {
    let sum = 0;
    for (let c = first; c < columns; c++) sum += matrix[i * columns + c]! * batch[v + c]!;
    out[o + i] = add ? out[o + i]! + sum : sum;
  }
}

/** Row `p` of the batch. */
function multiplyOne(
  { values: matrix, rows, columns }: DenseMatrix,
  { values: batch, at, stride }: Rows,
  p: number,
  { values: out, at: outAt, stride: outStride }: Rows,
  add: boolean,
): void {
  const from = at + p * stride;
  let to = outAt + p * outStride;
  let i = 0;
  for (; i + 3 < rows; i += 4, to += 4) {
    const a = i * columns;
    const b = a + columns;
    const c = b + columns;
    const d = c + columns;
    let sumA = 0;
    let sumB = 0;
    let sumC = 0;
    let sumD = 0;
    for (let j = 0; j < columns; j++) {
      const x = batch[from + j]!;
      sumA += matrix[a + j]! * x;
      sumB += matrix[b + j]! * x;
      sumC += matrix[c + j]! * x;
      sumD += matrix[d + j]! * x;
    }
    out[to] = add ? out[to]! + sumA : sumA;
    out[to + 1] = add ? out[to + 1]! + sumB : sumB;
    out[to + 2] = add ? out[to + 2]! + sumC : sumC;
    out[to + 3] = add ? out[to + 3]! + sumD : sumD;
  }
  for (; i < rows; i++, to++) {
    let sum = 0;
    for (let j = 0; j < columns; j++) sum += matrix[i * columns + j]! * batch[from + j]!;
    out[to] = add ? out[to]! + sum : sum;
  }
}
