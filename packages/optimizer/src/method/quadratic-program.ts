/** Constraints `row z <= limit` of a quadratic program, by number: told when they are needed, so that thousands may be there. */
export interface ProgramRows {
  /** Those numbered below are equations. */
  readonly equations: number;
  /** Writes the coefficients of a row, and returns its limit. */
  write(row: number, out: Float64Array): number;
  /** The row that `z` passes most, of those not `held`, by more than it may; -1: none. */
  mostPassed(z: Float64Array, held: Uint8Array): number;
  readonly count: number;
  /** Rows that are likely to hold the solution: it is quick where they do, and right whether or not. No equations. */
  readonly likely?: readonly number[];
}

/** Where a quadratic program ends. */
export interface QuadraticSolution {
  readonly z: Float64Array;
  /** Numbers of the rows that hold the solution, and their multipliers: 0 and above, of equations either sign. */
  readonly holding: readonly number[];
  readonly multipliers: readonly number[];
  /** False where rows contradict each other, or the iterations were spent. */
  readonly solved: boolean;
}

/**
 * Makes `1/2 z H z + cost z` small subject to rows, `H` positive definite: the dual method of Goldfarb & Idnani (Math. Programming 27 (1983) 1-33). It
 * begins at the unconstrained minimum and takes in one violated row after the other, so that few rows of very many are ever touched.
 *
 * `hessian`: lower triangle, row-major; overwritten.
 */
export function quadraticProgram(hessian: Float64Array, cost: Float64Array, rows: ProgramRows): QuadraticSolution {
  const n = cost.length;
  const z = new Float64Array(n);
  const holding: number[] = [];
  const multipliers: number[] = [];
  const ended = (solved: boolean): QuadraticSolution => ({ z, holding, multipliers, solved });
  const inverse = invertedFactor(hessian, n);
  if (inverse === undefined) return ended(false);
  // Column k of J, as row k: after the first `q`, a basis of the moves that keep the rows which hold.
  const basis = inverse;
  for (let k = 0; k < n; k++) {
    let along = 0;
    for (let i = 0; i < n; i++) along += basis[k * n + i]! * cost[i]!;
    for (let i = 0; i < n; i++) z[i]! -= along * basis[k * n + i]!;
  }
  const upper = new Float64Array(n * n);
  const row = new Float64Array(n);
  const along = new Float64Array(n);
  const move = new Float64Array(n);
  const dual = new Float64Array(n);
  const held = new Uint8Array(rows.count);
  if (rows.likely !== undefined && rows.likely.length > 0)
    holdLikely({ n, z, basis, upper, holding, multipliers, held }, rows, rows.likely);
  // Equations among those that hold now; the others enter first.
  let next = holding.findIndex((one) => one >= rows.equations);
  if (next < 0) next = holding.length;
  for (let iteration = 0; iteration < mostSteps * (n + rows.equations); iteration++) {
    const entering = next < rows.equations ? next++ : rows.mostPassed(z, held);
    if (entering < 0) return ended(true);
    const limit = rows.write(entering, row);
    let entered = 0;
    for (;;) {
      const q = holding.length;
      // An equation that is missed from below enters with the opposite sign.
      let passed = -limit;
      for (let i = 0; i < n; i++) passed += row[i]! * z[i]!;
      for (let k = 0; k < n; k++) {
        let sum = 0;
        for (let i = 0, at = k * n; i < n; i++, at++) sum += basis[at]! * row[i]!;
        along[k] = sum;
      }
      let steep = 0;
      move.fill(0);
      for (let k = q; k < n; k++) {
        const a = along[k]!;
        steep += a * a;
        for (let i = 0, at = k * n; i < n; i++, at++) move[i]! += a * basis[at]!;
      }
      for (let k = q - 1; k >= 0; k--) {
        let sum = along[k]!;
        for (let l = k + 1; l < q; l++) sum -= upper[k * n + l]! * dual[l]!;
        dual[k] = sum / upper[k * n + k]!;
      }
      let whole = 0;
      for (let k = 0; k < n; k++) whole += along[k]! * along[k]!;
      const free = q < n && steep > dependent * whole;
      let length = free ? passed / steep : Number.POSITIVE_INFINITY;
      let leaving = -1;
      const sign = entering < rows.equations && passed < 0 ? -1 : 1;
      for (let k = 0; k < q; k++) {
        if (holding[k]! < rows.equations) continue;
        const rate = sign * dual[k]!;
        if (rate > 0 && multipliers[k]! < rate * Math.abs(length)) {
          length = (sign * multipliers[k]!) / rate;
          leaving = k;
        }
      }
      if (!Number.isFinite(length)) return ended(false);
      if (free) for (let i = 0; i < n; i++) z[i]! -= length * move[i]!;
      for (let k = 0; k < q; k++) multipliers[k]! -= length * dual[k]!;
      entered += length;
      if (leaving < 0) {
        takeIn(basis, upper, along, q, n);
        holding.push(entering);
        multipliers.push(entered);
        held[entering] = 1;
        break;
      }
      held[holding[leaving]!] = 0;
      letGo(basis, upper, leaving, q, n);
      holding.splice(leaving, 1);
      multipliers.splice(leaving, 1);
    }
  }
  return ended(false);
}

/** Where a program stands: unknowns, and the rows that hold them, with the factors of these. */
interface Standing {
  readonly n: number;
  readonly z: Float64Array;
  readonly basis: Float64Array;
  readonly upper: Float64Array;
  readonly holding: number[];
  readonly multipliers: number[];
  readonly held: Uint8Array;
}

/**
 * Goes from the unconstrained minimum `z` to that with the equations and the `likely` rows met exactly; those whose multiplier is negative leave again, the worst first, until
 * none is: a start of the dual method as good as any other.
 */
function holdLikely(standing: Standing, rows: ProgramRows, likely: readonly number[]): void {
  const { n, z, basis, upper, holding, multipliers, held } = standing;
  const row = new Float64Array(n);
  const along = new Float64Array(n);
  /** By how much the unconstrained minimum passes each row that holds. */
  const passed: number[] = [];
  const hold = (entering: number): void => {
    const q = holding.length;
    if (q === n) return;
    let over = -rows.write(entering, row);
    for (let i = 0; i < n; i++) over += row[i]! * z[i]!;
    let whole = 0;
    let free = 0;
    for (let k = 0; k < n; k++) {
      let sum = 0;
      for (let i = 0, at = k * n; i < n; i++, at++) sum += basis[at]! * row[i]!;
      along[k] = sum;
      whole += sum * sum;
      if (k >= q) free += sum * sum;
    }
    if (!(free > independent * whole)) return;
    takeIn(basis, upper, along, q, n);
    holding.push(entering);
    multipliers.push(0);
    passed.push(over);
    held[entering] = 1;
  };
  for (let equation = 0; equation < rows.equations; equation++) hold(equation);
  if (holding.length < rows.equations) {
    // Equations that contradict each other, or nearly: the plain way says which.
    holding.length = 0;
    multipliers.length = 0;
    held.fill(0);
    return;
  }
  for (const one of likely) hold(one);
  const reach = new Float64Array(n);
  for (;;) {
    const q = holding.length;
    // With J'N = R: R'w = passed, R multipliers = w, and z goes back by J w.
    for (let k = 0; k < q; k++) {
      let sum = passed[k]!;
      for (let l = 0; l < k; l++) sum -= upper[l * n + k]! * reach[l]!;
      reach[k] = sum / upper[k * n + k]!;
    }
    let worst = -1;
    for (let k = q - 1; k >= 0; k--) {
      let sum = reach[k]!;
      for (let l = k + 1; l < q; l++) sum -= upper[k * n + l]! * multipliers[l]!;
      multipliers[k] = sum / upper[k * n + k]!;
      if (holding[k]! >= rows.equations && multipliers[k]! < (worst < 0 ? 0 : multipliers[worst]!)) worst = k;
    }
    if (worst < 0) break;
    held[holding[worst]!] = 0;
    letGo(basis, upper, worst, q, n);
    for (const list of [holding, multipliers, passed]) list.splice(worst, 1);
  }
  for (let k = 0; k < holding.length; k++)
    for (let i = 0, at = k * n; i < n; i++, at++) z[i]! -= reach[k]! * basis[at]!;
}

/** Rows taken in, at most, times unknowns and equations. */
const mostSteps = 30;
/** A row is a sum of those that hold where so small a share of its square is left beside them. */
const dependent = 1e-20;
/** A likely row is taken in only where more than this share of its square is left: what it brings must be worth its digits. */
const independent = 1e-10;

/** Turns the basis so that what `along` has beyond the first `q` lies in the next alone, which becomes a column of `upper`. */
function takeIn(basis: Float64Array, upper: Float64Array, along: Float64Array, q: number, n: number): void {
  for (let k = n - 1; k > q; k--) {
    const a = along[k - 1]!;
    const b = along[k]!;
    if (b === 0) continue;
    const length = Math.sqrt(a * a + b * b);
    turnRows(basis, (k - 1) * n, n, a / length, b / length);
    along[k - 1] = length;
    along[k] = 0;
  }
  for (let k = 0; k <= q; k++) upper[k * n + q] = along[k]!;
}

/** Takes column `leaving` out of `upper`, which stays triangular by turns of the basis. */
function letGo(basis: Float64Array, upper: Float64Array, leaving: number, q: number, n: number): void {
  for (let l = leaving + 1; l < q; l++) for (let k = 0; k <= l; k++) upper[k * n + l - 1] = upper[k * n + l]!;
  for (let k = leaving; k < q - 1; k++) {
    const a = upper[k * n + k]!;
    const b = upper[(k + 1) * n + k]!;
    const length = Math.sqrt(a * a + b * b);
    if (length === 0) continue;
    const [cos, sin] = [a / length, b / length];
    for (let l = k; l < q - 1; l++) {
      const above = upper[k * n + l]!;
      const below = upper[(k + 1) * n + l]!;
      upper[k * n + l] = cos * above + sin * below;
      upper[(k + 1) * n + l] = cos * below - sin * above;
    }
    turnRows(basis, k * n, n, cos, sin);
  }
}

/** Turns the row of length `n` that begins at `first`, and the next one. */
function turnRows(basis: Float64Array, first: number, n: number, cos: number, sin: number): void {
  for (let i = first; i < first + n; i++) {
    const a = basis[i]!;
    const b = basis[i + n]!;
    basis[i] = cos * a + sin * b;
    basis[i + n] = cos * b - sin * a;
  }
}

/** The inverse of the Cholesky factor `L`, row-major; undefined where the matrix is not positive definite. */
function invertedFactor(matrix: Float64Array, n: number): Float64Array | undefined {
  for (let j = 0; j < n; j++)
    for (let i = j; i < n; i++) {
      let sum = matrix[i * n + j]!;
      for (let k = 0; k < j; k++) sum -= matrix[i * n + k]! * matrix[j * n + k]!;
      if (i > j) matrix[i * n + j] = sum / matrix[j * n + j]!;
      else if (sum > 0) matrix[j * n + j] = Math.sqrt(sum);
      else return undefined;
    }
  const inverse = new Float64Array(n * n);
  for (let j = 0; j < n; j++) {
    inverse[j * n + j] = 1 / matrix[j * n + j]!;
    for (let i = j + 1; i < n; i++) {
      let sum = 0;
      for (let k = j; k < i; k++) sum -= matrix[i * n + k]! * inverse[k * n + j]!;
      inverse[i * n + j] = sum / matrix[i * n + i]!;
    }
  }
  return inverse;
}
