/** An outline whose arbitrary values do not close; the coefficients of its curvature come last among them. */
export interface OpenOutline {
  /** Index of the length among the values; the coefficients follow. */
  readonly lengthAt: number;
  /** Conditions that a closed outline meets: two (mirror: turning, x at the top) or three (turning, both coordinates). */
  readonly closures: number;
  /** What is missing of each, in radians and mm, and its rate for every value, one row to a condition. */
  closure(values: ArrayLike<number>, missing: Float64Array, rates: Float64Array): void;
}

const mostTurns = 30;
/** Radians, and shares of the length. */
const closed = 1e-13;

export function closeOutline(outline: OpenOutline, values: Float64Array, bound: number): boolean {
  const { lengthAt, closures } = outline;
  const missing = new Float64Array(closures);
  const slopes = new Float64Array(closures * values.length);
  const coefficients = values.subarray(lengthAt + 1);
  for (let turn = 0; turn < mostTurns; turn++) {
    outline.closure(values, missing, slopes);
    let worst = Math.abs(missing[0]!);
    for (let r = 1; r < closures; r++) worst = Math.max(worst, Math.abs(missing[r]!) / values[lengthAt]!);
    if (worst <= closed) return true;
    if (!(worst < Number.POSITIVE_INFINITY) || !improve(coefficients, bound, missing, slopes)) return false;
  }
  return false;
}

/** Newton's step; coefficients that come to their bound stay there, and the others make up for it. */
function improve(coefficients: Float64Array, bound: number, missing: Float64Array, slopes: Float64Array): boolean {
  const n = coefficients.length;
  const stride = slopes.length / missing.length;
  const first = stride - n;
  const held = new Uint8Array(n);
  for (let again = 0; again < n; again++) {
    const step = smallestStep(missing, slopes, held);
    if (step === undefined) return false;
    let fresh = 0;
    for (let k = 0; k < n; k++)
      if (held[k] === 0 && Math.abs(coefficients[k]! + step[k]!) > bound * (1 + 1e-12)) {
        held[k] = 1;
        fresh++;
        const to = Math.sign(step[k]!) * bound - coefficients[k]!;
        coefficients[k]! += to;
        for (let r = 0; r < missing.length; r++) missing[r]! += slopes[r * stride + first + k]! * to;
      }
    if (fresh > 0) continue;
    for (let k = 0; k < n; k++) coefficients[k]! += step[k]!;
    break;
  }
  return true;
}

/** The smallest step of the coefficients that are not held which makes up for what is missing, to first order. */
function smallestStep(missing: Float64Array, slopes: Float64Array, held: Uint8Array): Float64Array | undefined {
  const rows = missing.length;
  const n = held.length;
  const stride = slopes.length / rows;
  const first = stride - n;
  const matrix = new Float64Array(rows * rows);
  for (let r = 0; r < rows; r++)
    for (let q = 0; q < rows; q++)
      for (let k = 0; k < n; k++)
        if (held[k] === 0) matrix[r * rows + q]! += slopes[r * stride + first + k]! * slopes[q * stride + first + k]!;
  const factors = missing.slice();
  if (!solveSmall(matrix, factors)) return undefined;
  return Float64Array.from({ length: n }, (_, k) => {
    if (held[k] === 1) return 0;
    let step = 0;
    for (let r = 0; r < rows; r++) step -= slopes[r * stride + first + k]! * factors[r]!;
    return step;
  });
}

/** Gauss without exchanges, for a positive definite matrix of two or three rows; false where it is not. */
function solveSmall(matrix: Float64Array, right: Float64Array): boolean {
  const n = right.length;
  for (let k = 0; k < n; k++) {
    const pivot = matrix[k * n + k]!;
    if (!(pivot > 0)) return false;
    for (let i = k + 1; i < n; i++) {
      const share = matrix[i * n + k]! / pivot;
      for (let j = k; j < n; j++) matrix[i * n + j]! -= share * matrix[k * n + j]!;
      right[i]! -= share * right[k]!;
    }
  }
  for (let k = n - 1; k >= 0; k--) {
    for (let j = k + 1; j < n; j++) right[k]! -= matrix[k * n + j]! * right[j]!;
    right[k]! /= matrix[k * n + k]!;
  }
  return true;
}
