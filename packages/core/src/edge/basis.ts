import type { CurveNodes } from '../outline/index.js';
import type { InnerPoint } from './inner-point.js';

/**
 * Polynomials that span the regular fields: `phi` and `psi` each hold `f_1 .. f_degree` with real and imaginary coefficients. In
 * `zeta = (z - centre) / length` they follow each other by a short recurrence,
 *
 *     f_0 = 1,   s_k f_(k+1) = zeta f_k - (i h_k0 f_k - h_k1 f_(k-1) - i h_k2 f_(k-2) + h_k3 f_(k-3)),
 *
 * `s` real, and all `h` where the contour is its own mirror image. Chosen by `contourRecurrence` they are nearly orthonormal on the contour that a
 * host is condensed on; plain powers (`h` 0, `s` 1) are ill conditioned where that is long or has horns: beyond degree 36 a stress there was anything.
 *
 * Coefficients are ordered `[mirror-symmetric | antisymmetric]`, `2 degree` each: for every k first phi, then psi. A mirror image turns
 * `f_k` into `(-1)^k conj f_k` where all `h` are real, so that a field symmetric in `x = 0` has real coefficients at odd and imaginary ones at even k
 * (its `phi(-conj z) = -conj phi(z)`), an antisymmetric one the others.
 */
export interface RegularBasis {
  readonly degree: number;
  /** mm; the origin of `zeta`, of a mirror-symmetric host on its mirror line. */
  readonly centreX: number;
  readonly centreY: number;
  readonly length: number;
  /** `degree` rows: `h_k0 .. h_k3, s_k`, of a contour unlike its mirror image followed by the imaginary parts of the four. */
  readonly recurrence: Float64Array;
  /** Whether the rows hold imaginary parts. */
  readonly complex?: true;
  /**
   * Of a basis whose rows are complex: the last functions are `size / (pole - zeta)`, poles outside the contour, `(re, im, size)` each; the recurrence
   * gives the others. For fields that come out of a corner which is cut into the contour: polynomials of any usable degree tell those badly.
   */
  readonly poles?: Float64Array;
}

const poleLength = 3;

/** Functions of a basis that are polynomials. */
export const polynomialsOf = ({ degree, poles }: Pick<RegularBasis, 'degree' | 'poles'>): number =>
  degree - (poles === undefined ? 0 : poles.length / poleLength);

/** Polynomials before the next one that it is made orthogonal to. With four, a contour with three horns has what all of them give, to 1e-8 of a stress. */
const depth = 4;
const rowLength = depth + 1;
const complexRowLength = rowLength + depth;

/** Numbers that each function takes in a table: value and three derivatives, `(re, im)` each. */
export const functionSize = 8;

/** Number of coefficients of one symmetry. */
export const halfSize = (degree: number): number => 2 * degree;

/** Whether the coefficient of `f_k` in one symmetry class is real. */
export const isReal = (k: number, symmetric: boolean): boolean => (k % 2 === 1) === symmetric;

/** Plain powers. */
export function powerRecurrence(degree: number): Float64Array {
  const recurrence = new Float64Array(degree * rowLength);
  for (let k = 0; k < degree; k++) recurrence[k * rowLength + depth] = 1;
  return recurrence;
}

/** Coefficients of `f_1 = (zeta - i h_00) / s_0` that make it `zeta` but for a constant. */
export const linearCoefficient = ({ recurrence }: Pick<RegularBasis, 'recurrence'>): number => recurrence[depth]!;

/**
 * Recurrence of polynomials that are orthonormal to the few before them on a contour: Arnoldi's process (as a basis of
 * fits: Brubeck, Nakatsukasa & Trefethen, SIAM Rev. 63 (2021) 405-415), cut off after `depth` (Saad, Linear Algebra Appl. 34 (1980) 269-295).
 *
 * `x`, `y`: points along it, local; of a contour that is its own mirror image (`mirrored`) the right half is enough; `weights`: the share of each.
 */
export function contourRecurrence(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  weights: ArrayLike<number>,
  degree: number,
  mirrored = true,
): Float64Array {
  const count = x.length;
  let whole = 0;
  for (let i = 0; i < count; i++) whole += weights[i]!;
  const product = (a: Float64Array, b: Float64Array): readonly [re: number, im: number] => {
    let [re, im] = [0, 0];
    for (let i = 0; i < count; i++) {
      re += weights[i]! * (a[2 * i]! * b[2 * i]! + a[2 * i + 1]! * b[2 * i + 1]!);
      im += weights[i]! * (a[2 * i + 1]! * b[2 * i]! - a[2 * i]! * b[2 * i + 1]!);
    }
    // In u = -i zeta the recurrence of a mirrored contour is real: its left half conjugates every value.
    return [re / whole, mirrored ? 0 : im / whole];
  };
  const width = mirrored ? rowLength : complexRowLength;
  const recurrence = new Float64Array(degree * width);
  const first = new Float64Array(2 * count);
  for (let i = 0; i < count; i++) first[2 * i] = 1;
  const known = [first];
  for (let k = 0; k < degree; k++) {
    const row = k * width;
    const last = known[k]!;
    const next = new Float64Array(2 * count);
    for (let i = 0; i < count; i++) {
      next[2 * i] = last[2 * i]! * y[i]! + last[2 * i + 1]! * x[i]!;
      next[2 * i + 1] = last[2 * i + 1]! * y[i]! - last[2 * i]! * x[i]!;
    }
    // Twice, against cancellation.
    for (let pass = 0; pass < 2; pass++)
      for (let j = 0; j < depth && j <= k; j++) {
        const before = known[k - j]!;
        const [re, im] = product(next, before);
        recurrence[row + j]! += re;
        if (!mirrored) recurrence[row + rowLength + j]! += im;
        for (let i = 0; i < 2 * count; i += 2) {
          next[i]! -= re * before[i]! - im * before[i + 1]!;
          next[i + 1]! -= re * before[i + 1]! + im * before[i]!;
        }
      }
    const size = Math.sqrt(product(next, next)[0]);
    recurrence[row + depth] = size;
    for (let i = 0; i < 2 * count; i++) next[i]! /= size;
    known.push(next);
  }
  return recurrence;
}

/** Room for the functions at one point: `writeFunctions` begins with what stands before `f_1`. */
export const createFunctions = (degree: number): Float64Array => new Float64Array(functionSize * (degree + depth));

/** Where function `k` stands in what `writeFunctions` writes. */
export const functionAt = (k: number): number => functionSize * (k + depth - 1);

type Functions = Pick<RegularBasis, 'degree' | 'recurrence' | 'complex' | 'poles'>;

/** Writes `f_1 .. f_degree` with derivatives up to `derivatives` at the local point `x + i y`, at `functionAt(k)` each. */
export function writeFunctions(
  basis: Functions,
  x: number,
  y: number,
  derivatives: 1 | 2 | 3,
  out: Float64Array,
): void {
  const first = functionAt(0);
  out.fill(0, 0, first + functionSize);
  out[first] = 1;
  if (basis.complex) writeComplex(basis, x, y, derivatives, out);
  else writeReal(basis, x, y, derivatives, out);
}

/** All `h` are real. */
function writeReal({ degree, recurrence: h }: Functions, x: number, y: number, derivatives: number, out: Float64Array) {
  for (let k = 0, at = functionAt(0); k < degree; k++, at += functionSize) {
    const row = k * rowLength;
    const h0 = h[row]!;
    const h1 = h[row + 1]!;
    const h2 = h[row + 2]!;
    const h3 = h[row + 3]!;
    const scale = 1 / h[row + 4]!;
    let belowRe = 0;
    let belowIm = 0;
    for (let d = 0, n = at; d <= derivatives; d++, n += 2) {
      const re = out[n]!;
      const im = out[n + 1]!;
      const n1 = n - functionSize;
      const n2 = n1 - functionSize;
      const n3 = n2 - functionSize;
      out[n + functionSize] =
        scale * (x * re - (y - h0) * im + d * belowRe + h1 * out[n1]! - h2 * out[n2 + 1]! - h3 * out[n3]!);
      out[n + functionSize + 1] =
        scale * (x * im + (y - h0) * re + d * belowIm + h1 * out[n1 + 1]! + h2 * out[n2]! - h3 * out[n3 + 1]!);
      belowRe = re;
      belowIm = im;
    }
  }
}

/** The `h` are complex. */
function writeComplex(basis: Functions, x: number, y: number, derivatives: number, out: Float64Array) {
  const h = basis.recurrence;
  const polynomials = polynomialsOf(basis);
  if (basis.poles !== undefined) writePoles(basis.poles, x, y, derivatives, out.subarray(functionAt(polynomials + 1)));
  for (let k = 0, at = functionAt(0); k < polynomials; k++, at += functionSize) {
    const row = k * complexRowLength;
    const scale = 1 / h[row + depth]!;
    let belowRe = 0;
    let belowIm = 0;
    for (let d = 0, n = at; d <= derivatives; d++, n += 2) {
      const re = out[n]!;
      const im = out[n + 1]!;
      let nextRe = x * re - y * im + d * belowRe;
      let nextIm = x * im + y * re + d * belowIm;
      // i h_k0, -h_k1, -i h_k2 and h_k3: the powers of i.
      for (let j = 0, before = n, turnRe = 0, turnIm = 1; j < depth; j++, before -= functionSize) {
        const a = turnRe * h[row + j]! - turnIm * h[row + rowLength + j]!;
        const b = turnRe * h[row + rowLength + j]! + turnIm * h[row + j]!;
        nextRe -= a * out[before]! - b * out[before + 1]!;
        nextIm -= a * out[before + 1]! + b * out[before]!;
        [turnRe, turnIm] = [-turnIm, turnRe];
      }
      out[n + functionSize] = scale * nextRe;
      out[n + functionSize + 1] = scale * nextIm;
      belowRe = re;
      belowIm = im;
    }
  }
}

/** Each derivative is the one before it times its order over `pole - zeta`. */
function writePoles(poles: Float64Array, x: number, y: number, derivatives: number, out: Float64Array): void {
  for (let q = 0, at = 0; q < poles.length; q += poleLength, at += functionSize) {
    const awayX = poles[q]! - x;
    const awayY = poles[q + 1]! - y;
    const square = awayX * awayX + awayY * awayY;
    const inverseRe = awayX / square;
    const inverseIm = -awayY / square;
    let re = poles[q + 2]! * inverseRe;
    let im = poles[q + 2]! * inverseIm;
    for (let d = 0; d <= derivatives; d++) {
      out[at + 2 * d] = re;
      out[at + 2 * d + 1] = im;
      const next = (d + 1) * (re * inverseRe - im * inverseIm);
      im = (d + 1) * (re * inverseIm + im * inverseRe);
      re = next;
    }
  }
}

/** The functions of a basis at the solved nodes of one edge and at its inner point, local coordinates. */
export interface BasisTable {
  readonly basis: RegularBasis;
  /** Value and three derivatives of function `k` at node `i`, `(re, im)` each: from `functionSize * (i * degree + k - 1)` on. */
  readonly atNodes: Float64Array;
  /** First derivative of function `k` at the inner point, `(re, im)`: at `2 * (k - 1)`. */
  readonly innerSlopes: Float64Array;
  /** The functions at one point, and those of them from `f_1` on. */
  readonly atPoint: Float64Array;
  readonly fromFirst: Float64Array;
}

export function createBasisTable(basis: RegularBasis, rows: number): BasisTable {
  const { degree } = basis;
  const atPoint = createFunctions(degree);
  return {
    basis,
    atNodes: new Float64Array(functionSize * degree * rows),
    innerSlopes: new Float64Array(2 * degree),
    atPoint,
    fromFirst: atPoint.subarray(functionAt(1)),
  };
}

/** Fills the table for the first `rows` nodes; allocates nothing. */
export function fillBasisTable(nodes: CurveNodes, rows: number, inner: InnerPoint, table: BasisTable): void {
  const { basis, atNodes, innerSlopes, atPoint, fromFirst } = table;
  for (let i = 0; i < rows; i++) {
    writeFunctions(basis, nodes.x[i]!, nodes.y[i]!, 3, atPoint);
    atNodes.set(fromFirst, functionSize * basis.degree * i);
  }
  writeFunctions(basis, inner.x, inner.y, 1, atPoint);
  for (let k = 1; k <= basis.degree; k++) {
    innerSlopes[2 * k - 2] = atPoint[functionAt(k) + 2]!;
    innerSlopes[2 * k - 1] = atPoint[functionAt(k) + 3]!;
  }
}
