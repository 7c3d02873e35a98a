/**
 * A periodic cubic spline through points of the plane, in the usual form: positions and second derivatives at the knots.
 * `knots[i]` is the parameter of point `i`; `period` that of the first point after a full turn.
 */
export interface PeriodicSpline {
  readonly knots: Float64Array;
  readonly period: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly bendX: Float64Array;
  readonly bendY: Float64Array;
}

/** The spline through a closed polygon, parametrised by the length of its chords. Fourth order in the chord length. */
export function periodicSpline(x: Float64Array, y: Float64Array): PeriodicSpline {
  const count = x.length;
  const knots = new Float64Array(count);
  const chords = new Float64Array(count);
  let length = 0;
  for (let i = 0; i < count; i++) {
    const next = (i + 1) % count;
    knots[i] = length;
    chords[i] = Math.hypot(x[next]! - x[i]!, y[next]! - y[i]!);
    length += chords[i]!;
  }
  return { knots, period: length, x, y, bendX: secondDerivatives(chords, x), bendY: secondDerivatives(chords, y) };
}

/**
 * Continuity of the slope at every knot: `h0 m0 + 2 (h0 + h1) m1 + h1 m2 = 6 (slope1 - slope0)`, a cyclic tridiagonal
 * system; the two corners are taken out by the Sherman-Morrison formula.
 */
function secondDerivatives(chords: Float64Array, values: Float64Array): Float64Array {
  const count = values.length;
  const before = (i: number) => (i + count - 1) % count;
  const diagonal = Float64Array.from(chords, (h, i) => 2 * (h + chords[before(i)]!));
  const right = Float64Array.from(values, (value, i) => {
    const last = before(i);
    const ahead = (values[(i + 1) % count]! - value) / chords[i]!;
    return 6 * (ahead - (value - values[last]!) / chords[last]!);
  });
  // The corners, both equal to the last chord, are the product of (-d, 0, ..., c) and (1, 0, ..., -c/d), with d the first diagonal.
  const corner = chords[count - 1]!;
  const first = diagonal[0]!;
  diagonal[0] = 2 * first;
  diagonal[count - 1]! += (corner * corner) / first;
  const edge = new Float64Array(count);
  edge[0] = -first;
  edge[count - 1] = corner;
  solveTridiagonal(diagonal, chords, right, edge);
  const factor =
    (right[0]! - (corner / first) * right[count - 1]!) / (1 + edge[0]! - (corner / first) * edge[count - 1]!);
  return right.map((value, i) => value - factor * edge[i]!);
}

/** Solves a symmetric, diagonally dominant tridiagonal system for two right sides, in place. `off[i]` links `i` and `i + 1`. */
function solveTridiagonal(diagonal: Float64Array, off: Float64Array, a: Float64Array, b: Float64Array): void {
  const count = diagonal.length;
  for (let i = 1; i < count; i++) {
    const ratio = off[i - 1]! / diagonal[i - 1]!;
    diagonal[i]! -= ratio * off[i - 1]!;
    a[i]! -= ratio * a[i - 1]!;
    b[i]! -= ratio * b[i - 1]!;
  }
  for (let i = count - 1; i >= 0; i--) {
    const following = i + 1 < count ? i + 1 : 0;
    const link = i + 1 < count ? off[i]! : 0;
    a[i] = (a[i]! - link * a[following]!) / diagonal[i]!;
    b[i] = (b[i]! - link * b[following]!) / diagonal[i]!;
  }
}

/** A point of a spline with its derivatives with respect to the spline's parameter; filled again and again. */
export interface SplinePoint {
  x: number;
  y: number;
  dx: number;
  dy: number;
  ddx: number;
  ddy: number;
}

/** Evaluates a spline in piece `i`, from knot `i` to the next, at `along` from knot `i`. */
export function splinePoint(spline: PeriodicSpline, i: number, along: number, out: SplinePoint): void {
  const { knots, period, x, y, bendX, bendY } = spline;
  const next = i + 1 === knots.length ? 0 : i + 1;
  const h = (next === 0 ? period : knots[next]!) - knots[i]!;
  const u = along / h;
  const v = 1 - u;
  const a = ((v * v * v - v) * h * h) / 6;
  const b = ((u * u * u - u) * h * h) / 6;
  const da = (-(3 * v * v - 1) * h) / 6;
  const db = ((3 * u * u - 1) * h) / 6;
  out.x = v * x[i]! + u * x[next]! + a * bendX[i]! + b * bendX[next]!;
  out.y = v * y[i]! + u * y[next]! + a * bendY[i]! + b * bendY[next]!;
  out.dx = (x[next]! - x[i]!) / h + da * bendX[i]! + db * bendX[next]!;
  out.dy = (y[next]! - y[i]!) / h + da * bendY[i]! + db * bendY[next]!;
  out.ddx = v * bendX[i]! + u * bendX[next]!;
  out.ddy = v * bendY[i]! + u * bendY[next]!;
}
