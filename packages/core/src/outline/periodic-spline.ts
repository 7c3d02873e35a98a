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

/** Lengths along a closed polygon: at each of its points, and all around. */
export function chordLengths(x: Float64Array, y: Float64Array): { along: Float64Array; period: number } {
  const count = x.length;
  const along = new Float64Array(count);
  let period = 0;
  for (let i = 0; i < count; i++) {
    const next = (i + 1) % count;
    along[i] = period;
    period += Math.hypot(x[next]! - x[i]!, y[next]! - y[i]!);
  }
  return { along, period };
}

/** The spline through points at the parameters `knots`. Fourth order in their distance if these are lengths of chords. */
export function periodicSpline(knots: Float64Array, period: number, x: Float64Array, y: Float64Array): PeriodicSpline {
  const steps = knots.map((knot, i) => (i + 1 < knots.length ? knots[i + 1]! : knots[0]! + period) - knot);
  return { knots, period, x, y, bendX: secondDerivatives(steps, x), bendY: secondDerivatives(steps, y) };
}

/**
 * Continuity of the slope at every knot: `h0 m0 + 2 (h0 + h1) m1 + h1 m2 = 6 (slope1 - slope0)`, a cyclic tridiagonal
 * system; the two corners are taken out by the Sherman-Morrison formula.
 */
function secondDerivatives(steps: Float64Array, values: Float64Array): Float64Array {
  const count = values.length;
  const before = (i: number) => (i + count - 1) % count;
  const diagonal = Float64Array.from(steps, (h, i) => 2 * (h + steps[before(i)]!));
  const right = Float64Array.from(values, (value, i) => {
    const last = before(i);
    const ahead = (values[(i + 1) % count]! - value) / steps[i]!;
    return 6 * (ahead - (value - values[last]!) / steps[last]!);
  });
  // The corners, both equal to the last step, are the product of (-d, 0, ..., c) and (1, 0, ..., -c/d), with d the first diagonal.
  const corner = steps[count - 1]!;
  const first = diagonal[0]!;
  diagonal[0] = 2 * first;
  diagonal[count - 1]! += (corner * corner) / first;
  const edge = new Float64Array(count);
  edge[0] = -first;
  edge[count - 1] = corner;
  solveTridiagonal(diagonal, steps, right, edge);
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

/** A parameter within one period from the first knot. */
export function wrapped({ knots, period }: PeriodicSpline, t: number): number {
  const from = knots[0]!;
  return t - period * Math.floor((t - from) / period);
}

/** Evaluates a spline anywhere. */
export function pointAt(spline: PeriodicSpline, t: number, out: SplinePoint): void {
  const { knots } = spline;
  const at = wrapped(spline, t);
  const i = pieceAt(knots, at);
  splinePoint(spline, i, at - knots[i]!, out);
}

/** The piece that holds `at`: the last of the increasing `knots` that does not lie beyond it. */
export function pieceAt(knots: Float64Array, at: number): number {
  let low = 0;
  let high = knots.length;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (knots[middle]! <= at) low = middle;
    else high = middle;
  }
  return low;
}

export const createSplinePoint = (): SplinePoint => ({ x: 0, y: 0, dx: 0, dy: 0, ddx: 0, ddy: 0 });

/** Evaluates a spline in piece `i`, from knot `i` to the next, at `along` from knot `i`. */
export function splinePoint(spline: PeriodicSpline, i: number, along: number, out: SplinePoint): void {
  const { knots, period, x, y, bendX, bendY } = spline;
  const next = i + 1 === knots.length ? 0 : i + 1;
  const h = (next === 0 ? knots[0]! + period : knots[next]!) - knots[i]!;
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
