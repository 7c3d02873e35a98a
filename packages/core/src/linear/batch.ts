/**
 * `out = matrix * row` for each of `count` rows of a batch: `out[p][i] = sum over c of matrix[i][c] batch[p][c]`. All row-major; `batchStride` and
 * `outStride` are the lengths of their rows, `batchAt` and `outAt` where the first begins. Two rows of the matrix by four of the batch at a time
 * stay in registers. With `add`, what stands in `out` is added to.
 */
export function multiplyBatch(
  matrix: Float64Array,
  rows: number,
  columns: number,
  batch: Float64Array,
  batchAt: number,
  batchStride: number,
  count: number,
  out: Float64Array,
  outAt: number,
  outStride: number,
  add = false,
): void {
  let p = 0;
  for (; p + 3 < count; p += 4) {
    const v0 = batchAt + p * batchStride;
    const v1 = v0 + batchStride;
    const v2 = v1 + batchStride;
    const v3 = v2 + batchStride;
    const o0 = outAt + p * outStride;
    const o1 = o0 + outStride;
    const o2 = o1 + outStride;
    const o3 = o2 + outStride;
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
      for (let c = 0; c < columns; c++) {
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
    if (i < rows) {
      for (let q = 0; q < 4; q++)
        multiplyEntry(matrix, i, columns, batch, v0 + q * batchStride, out, o0 + q * outStride, add);
    }
  }
  for (; p < count; p++)
    for (let i = 0; i < rows; i++)
      multiplyEntry(matrix, i, columns, batch, batchAt + p * batchStride, out, outAt + p * outStride, add);
}

function multiplyEntry(
  matrix: Float64Array,
  row: number,
  columns: number,
  batch: Float64Array,
  from: number,
  out: Float64Array,
  to: number,
  add: boolean,
): void {
  let sum = add ? out[to + row]! : 0;
  for (let c = 0, at = row * columns; c < columns; c++, at++) sum += matrix[at]! * batch[from + c]!;
  out[to + row] = sum;
}
