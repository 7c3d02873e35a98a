/**
 * Solves `min cost z` subject to `rows z <= limits` from a strictly feasible `start`, by a primal-dual interior point method
 * (Wright, Primal-Dual Interior-Point Methods, SIAM 1997, ch. 1). For the small dense programs of a linearised search: tens of
 * unknowns, hundreds of rows. The feasible set must be bounded where the cost falls. Returns the last iterate, which is feasible.
 *
 * `rows` is row-major, `limits.length x start.length`.
 */
export function linearProgram(
  cost: Float64Array,
  rows: Float64Array,
  limits: Float64Array,
  start: Float64Array,
): Float64Array {
  const n = start.length;
  const m = limits.length;
  const z = start.slice();
  const slack = new Float64Array(m);
  const dual = new Float64Array(m);
  const normal = new Float64Array(n * n);
  const right = new Float64Array(n);
  const slackStep = new Float64Array(m);
  const dualStep = new Float64Array(m);
  for (let i = 0; i < m; i++) {
    slack[i] = limits[i]! - rowTimes(rows, i, z, n);
    if (!(slack[i]! > 0)) throw new Error(`linear program: row ${i} is not strictly met at the start`);
    dual[i] = 1 / (m * slack[i]!);
  }
  for (let iteration = 0; iteration < mostIterations; iteration++) {
    let gap = 0;
    for (let i = 0; i < m; i++) gap += slack[i]! * dual[i]!;
    const centre = centring * (gap / m);
    normal.fill(0);
    for (let k = 0; k < n; k++) right[k] = -cost[k]!;
    for (let i = 0; i < m; i++) {
      const row = i * n;
      const weight = dual[i]! / slack[i]!;
      const pull = centre / slack[i]!;
      for (let k = 0; k < n; k++) {
        const value = rows[row + k]!;
        if (value === 0) continue;
        right[k]! -= pull * value;
        const scaled = weight * value;
        for (let l = 0; l <= k; l++) normal[k * n + l]! += scaled * rows[row + l]!;
      }
    }
    if (!solvePositive(normal, right, n)) break;
    let primal = 1;
    let dualMost = 1;
    for (let i = 0; i < m; i++) {
      const along = rowTimes(rows, i, right, n);
      slackStep[i] = -along;
      dualStep[i] = centre / slack[i]! - dual[i]! + (dual[i]! / slack[i]!) * along;
      if (slackStep[i]! < 0) primal = Math.min(primal, (-0.99 * slack[i]!) / slackStep[i]!);
      if (dualStep[i]! < 0) dualMost = Math.min(dualMost, (-0.99 * dual[i]!) / dualStep[i]!);
    }
    for (let k = 0; k < n; k++) z[k]! += primal * right[k]!;
    for (let i = 0; i < m; i++) {
      slack[i]! += primal * slackStep[i]!;
      dual[i]! += dualMost * dualStep[i]!;
    }
    if (gap < smallGap && dualMost > 0.9) break;
  }
  return z;
}

const mostIterations = 40;
const centring = 0.15;
const smallGap = 1e-7;

function rowTimes(rows: Float64Array, row: number, x: Float64Array, n: number): number {
  let sum = 0;
  for (let k = 0; k < n; k++) sum += rows[row * n + k]! * x[k]!;
  return sum;
}

/** Cholesky on the lower triangle; `right` becomes the solution. False where the matrix is not positive definite. */
function solvePositive(matrix: Float64Array, right: Float64Array, n: number): boolean {
  for (let j = 0; j < n; j++) {
    for (let i = j; i < n; i++) {
      let sum = matrix[i * n + j]!;
      for (let k = 0; k < j; k++) sum -= matrix[i * n + k]! * matrix[j * n + k]!;
      if (i === j) {
        if (!(sum > 0)) return false;
        matrix[j * n + j] = Math.sqrt(sum);
      } else matrix[i * n + j] = sum / matrix[j * n + j]!;
    }
  }
  for (let i = 0; i < n; i++) {
    let sum = right[i]!;
    for (let k = 0; k < i; k++) sum -= matrix[i * n + k]! * right[k]!;
    right[i] = sum / matrix[i * n + i]!;
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = right[i]!;
    for (let k = i + 1; k < n; k++) sum -= matrix[k * n + i]! * right[k]!;
    right[i] = sum / matrix[i * n + i]!;
  }
  return true;
}
