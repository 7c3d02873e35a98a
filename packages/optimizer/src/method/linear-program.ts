/** `cost z` is to be made small, subject to `rows z <= limits` (row-major, `limits.length x cost.length`) and `lower <= z <= upper`. */
export interface LinearProgram {
  readonly cost: Float64Array;
  readonly rows: Float64Array;
  readonly limits: Float64Array;
  /** May be -Infinity. */
  readonly lower: Float64Array;
  /** May be Infinity. */
  readonly upper: Float64Array;
}

/**
 * Solves a linear program from a strictly feasible `start`, by Mehrotra's predictor-corrector method (SIAM J. Optim. 2 (1992) 575-601).
 * For the small dense programs of a linearised search: tens of unknowns, hundreds of rows. The feasible set must be bounded where
 * the cost falls. Ends with the last iterate, which is feasible.
 */
export function linearProgram(program: LinearProgram, start: Float64Array): Float64Array {
  const { cost, rows, limits } = program;
  const n = start.length;
  const general = limits.length;
  const sides = sidesOf(program);
  const m = general + sides.length;
  const z = start.slice();
  const slack = new Float64Array(m);
  const dual = new Float64Array(m);
  const pull = new Float64Array(m);
  const slackStep = new Float64Array(m);
  const dualStep = new Float64Array(m);
  const normal = new Float64Array(n * n);
  const step = new Float64Array(n);
  const weight = new Float64Array(m);

  for (let i = 0; i < general; i++) slack[i] = limits[i]! - rowTimes(rows, i, z, n);
  sides.forEach(({ variable, sign, limit }, k) => {
    slack[general + k] = limit - sign * z[variable]!;
  });
  for (let i = 0; i < m; i++) {
    if (!(slack[i]! > 0)) {
      const what = i < general ? `row ${i}` : `an end of variable ${sides[i - general]!.variable}`;
      throw new Error(`linear program: ${what} is not strictly met at the start`);
    }
    dual[i] = 1 / (m * slack[i]!);
  }

  /** The Newton step whose products of slack and dual become `pull`. */
  const solveStep = (): void => {
    for (let k = 0; k < n; k++) step[k] = -cost[k]!;
    for (let i = 0; i < general; i++) {
      const factor = pull[i]! / slack[i]!;
      if (factor !== 0) for (let k = 0, at = i * n; k < n; k++, at++) step[k]! -= factor * rows[at]!;
    }
    for (let s = 0; s < sides.length; s++) {
      const { variable, sign } = sides[s]!;
      step[variable]! -= (sign * pull[general + s]!) / slack[general + s]!;
    }
    substitute(normal, step, n);
    for (let i = 0; i < general; i++) slackStep[i] = -rowTimes(rows, i, step, n);
    for (let s = 0; s < sides.length; s++) slackStep[general + s] = -sides[s]!.sign * step[sides[s]!.variable]!;
    for (let i = 0; i < m; i++) dualStep[i] = (pull[i]! - dual[i]! * slackStep[i]!) / slack[i]! - dual[i]!;
  };

  for (let iteration = 0; iteration < mostIterations; iteration++) {
    const gap = product(slack, dual);
    for (let i = 0; i < m; i++) weight[i] = dual[i]! / slack[i]!;
    writeNormal(rows, weight, n, normal);
    for (let s = 0; s < sides.length; s++) normal[sides[s]!.variable * (n + 1)]! += weight[general + s]!;
    if (!factor(normal, n)) break;
    pull.fill(0);
    solveStep();
    // How far the plain Newton step comes tells how much centring the corrected one needs.
    const primal = longest(slack, slackStep);
    const other = longest(dual, dualStep);
    let reached = 0;
    for (let i = 0; i < m; i++) reached += (slack[i]! + primal * slackStep[i]!) * (dual[i]! + other * dualStep[i]!);
    const left = reached / gap;
    const centre = (gap / m) * left * left * left;
    // The correction holds for whole steps; short ones get as much of it as they can go.
    const share = primal * other;
    for (let i = 0; i < m; i++) pull[i] = centre - share * slackStep[i]! * dualStep[i]!;
    solveStep();
    const primalStep = Math.min(1, shortOfBorder * longest(slack, slackStep));
    const dualLength = Math.min(1, shortOfBorder * longest(dual, dualStep));
    for (let k = 0; k < n; k++) z[k]! += primalStep * step[k]!;
    for (let i = 0; i < m; i++) {
      slack[i]! += primalStep * slackStep[i]!;
      dual[i]! += dualLength * dualStep[i]!;
    }
    if (gap < smallGap && dualLength > 0.9) break;
  }
  return z;
}

const mostIterations = 40;
const shortOfBorder = 0.99;
const smallGap = 1e-7;

/** One finite end of a variable's range, as `sign z <= limit`. */
interface Side {
  readonly variable: number;
  readonly sign: 1 | -1;
  readonly limit: number;
}

function sidesOf({ lower, upper }: LinearProgram): Side[] {
  const sides: Side[] = [];
  for (let variable = 0; variable < lower.length; variable++) {
    if (upper[variable]! < Number.POSITIVE_INFINITY) sides.push({ variable, sign: 1, limit: upper[variable]! });
    if (lower[variable]! > Number.NEGATIVE_INFINITY) sides.push({ variable, sign: -1, limit: -lower[variable]! });
  }
  return sides;
}

/** `normal = sum of weight times row times row`, its lower triangle; four rows at a time share the loads and stores of the sum. */
function writeNormal(rows: Float64Array, weight: Float64Array, n: number, normal: Float64Array): void {
  const count = rows.length / n;
  normal.fill(0);
  let i = 0;
  for (; i + 3 < count; i += 4) {
    const a = i * n;
    const b = a + n;
    const c = b + n;
    const d = c + n;
    for (let k = 0; k < n; k++) {
      const scaledA = weight[i]! * rows[a + k]!;
      const scaledB = weight[i + 1]! * rows[b + k]!;
      const scaledC = weight[i + 2]! * rows[c + k]!;
      const scaledD = weight[i + 3]! * rows[d + k]!;
      const out = k * n;
      for (let l = 0; l <= k; l++)
        normal[out + l]! +=
          scaledA * rows[a + l]! + scaledB * rows[b + l]! + scaledC * rows[c + l]! + scaledD * rows[d + l]!;
    }
  }
  for (; i < count; i++)
    for (let k = 0; k < n; k++) {
      const scaled = weight[i]! * rows[i * n + k]!;
      for (let l = 0; l <= k; l++) normal[k * n + l]! += scaled * rows[i * n + l]!;
    }
}

/** Longest step, 1 at most, that keeps all values from falling below 0. */
function longest(values: Float64Array, steps: Float64Array): number {
  let length = 1;
  for (let i = 0; i < values.length; i++)
    if (steps[i]! < 0 && -values[i]! > length * steps[i]!) length = -values[i]! / steps[i]!;
  return length;
}

function product(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

function rowTimes(rows: Float64Array, row: number, x: Float64Array, n: number): number {
  let even = 0;
  let odd = 0;
  let at = row * n;
  for (let k = 0; k + 1 < n; k += 2, at += 2) {
    even += rows[at]! * x[k]!;
    odd += rows[at + 1]! * x[k + 1]!;
  }
  return n % 2 === 0 ? even + odd : even + odd + rows[at]! * x[n - 1]!;
}

/** Cholesky factor in place of the lower triangle, 2.5 to 5 times as fast as ml-matrix with 8 to 32 unknowns. False where the matrix is not positive definite. */
function factor(matrix: Float64Array, n: number): boolean {
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
  return true;
}

/** `right` becomes the solution of the factored system. */
function substitute(factored: Float64Array, right: Float64Array, n: number): void {
  for (let i = 0; i < n; i++) {
    let sum = right[i]!;
    for (let k = 0; k < i; k++) sum -= factored[i * n + k]! * right[k]!;
    right[i] = sum / factored[i * n + i]!;
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = right[i]!;
    for (let k = i + 1; k < n; k++) sum -= factored[k * n + i]! * right[k]!;
    right[i] = sum / factored[i * n + i]!;
  }
}
