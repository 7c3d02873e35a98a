import { addEntry, createCyclicBand, solveCyclicBand } from '../linear/index.js';
import {
  chordLengths,
  createSplinePoint,
  type PeriodicSpline,
  periodicSpline,
  pieceAt,
  pointAt,
  wrapped,
} from './periodic-spline.js';

/** Pieces of the first try. */
const fewestPieces = 16;
/**
 * Rounding to a unit puts a point off by at most half a unit in each coordinate, 0.71 units in all, and by 0.29 on an average (root of
 * the mean square). Residuals beyond show that the spline is too stiff.
 */
const largestResidual = 0.75;
const usualResidual = 1 / Math.sqrt(12);
/** With more knots per point than this nothing is left to smooth. */
const mostKnots = 2 / 3;

/**
 * A periodic cubic spline that passes every point as closely as its rounding to multiples of `unit` tells, with few pieces, so
 * that rounding does not become curvature: least squares; knots are some of the points, more where residuals are larger than
 * rounding makes them. If that takes nearly all points, or with `unit` 0, the spline passes through every point.
 */
export function smoothSpline(x: Float64Array, y: Float64Array, unit: number): PeriodicSpline {
  const { along, period } = chordLengths(x, y);
  const count = x.length;
  const feet = along.slice();
  let knots = unit === 0 ? [] : firstKnots(along, period);
  while (unit > 0 && knots.length < mostKnots * count) {
    const spline = leastSquares(feet, period, x, y, knots);
    const residuals = nearest(spline, x, y, feet);
    const more = stiffPieces(knots, residuals, unit);
    if (more.size === 0) return spline;
    knots = [...knots, ...more].sort((a, b) => a - b);
  }
  return periodicSpline(along, period, x, y);
}

/** Numbers of points at about equal distances along the outline, the first one among them. */
function firstKnots(along: Float64Array, period: number): number[] {
  const chosen = new Set<number>();
  for (let k = 0; k < fewestPieces; k++) chosen.add(pieceAt(along, (k * period) / fewestPieces));
  // Uneven points: fill up, so that the ring is long enough for its B-splines.
  for (let i = 0; chosen.size < fewestPieces; i++) chosen.add(i);
  return [...chosen].sort((a, b) => a - b);
}

/** Least squares for the points at parameters `along`; knots at the parameters of the points `chosen`. */
function leastSquares(
  along: Float64Array,
  period: number,
  x: Float64Array,
  y: Float64Array,
  chosen: readonly number[],
): PeriodicSpline {
  const order = chosen.length;
  const knots = Float64Array.from(chosen, (i) => along[i]!);
  const matrix = createCyclicBand(order);
  const rightX = new Float64Array(order);
  const rightY = new Float64Array(order);
  const weights = new Float64Array(4);
  const place = { knots, period } as PeriodicSpline;
  for (let i = 0; i < along.length; i++) {
    const at = wrapped(place, along[i]!);
    const piece = pieceAt(knots, at);
    bSplines(knots, period, piece, at, weights);
    for (let a = 0; a < 4; a++) {
      const row = (piece + a) % order;
      rightX[row]! += weights[a]! * x[i]!;
      rightY[row]! += weights[a]! * y[i]!;
      for (let b = 0; b <= a; b++) addEntry(matrix, row, (piece + b) % order, weights[a]! * weights[b]!);
    }
  }
  solveCyclicBand(matrix, [rightX, rightY]);
  const valueAt = (k: number, coefficients: Float64Array) => {
    bSplines(knots, period, k, knots[k]!, weights);
    let sum = 0;
    for (let a = 0; a < 3; a++) sum += weights[a]! * coefficients[(k + a) % order]!;
    return sum;
  };
  return periodicSpline(
    knots,
    period,
    knots.map((_, k) => valueAt(k, rightX)),
    knots.map((_, k) => valueAt(k, rightY)),
  );
}

/** The four cubic B-splines that do not vanish in `piece`, by their recurrence (de Boor, A Practical Guide to Splines, 1978, ch. X). */
function bSplines(knots: Float64Array, period: number, piece: number, at: number, out: Float64Array): void {
  const count = knots.length;
  const knot = (i: number) => {
    const turn = Math.floor(i / count);
    return knots[i - turn * count]! + turn * period;
  };
  out[0] = 1;
  for (let degree = 1; degree <= 3; degree++) {
    let carried = 0;
    for (let r = 0; r < degree; r++) {
      const right = knot(piece + r + 1) - at;
      const left = at - knot(piece + 1 - degree + r);
      const share = out[r]! / (right + left);
      out[r] = carried + right * share;
      carried = left * share;
    }
    out[degree] = carried;
  }
}

/** Moves every parameter in `along` towards the foot of its point on the spline (a step of Newton), in order, and returns the distances there. */
function nearest(spline: PeriodicSpline, x: Float64Array, y: Float64Array, along: Float64Array): Float64Array {
  const at = createSplinePoint();
  const count = along.length;
  const before = along.slice();
  const gap = (i: number) => (i < count ? before[i]! : before[0]! + spline.period) - before[i - 1]!;
  return x.map((px, i) => {
    pointAt(spline, before[i]!, at);
    const ex = px - at.x;
    const ey = y[i]! - at.y;
    const speed2 = at.dx * at.dx + at.dy * at.dy;
    const shift = (ex * at.dx + ey * at.dy) / speed2;
    along[i]! += Math.max(-0.4 * gap(i === 0 ? count : i), Math.min(0.4 * gap(i + 1), shift));
    return (at.dx * ey - at.dy * ex) / Math.sqrt(speed2);
  });
}

/** The points that become knots: for every piece whose residuals are more than rounding, the middle one of those inside it. */
function stiffPieces(knots: readonly number[], residuals: Float64Array, unit: number): Set<number> {
  const count = residuals.length;
  const pieces = knots.length;
  const found = new Set<number>();
  const split = (k: number): boolean => {
    const piece = (k + pieces) % pieces;
    const from = knots[piece]!;
    const to = piece + 1 < pieces ? knots[piece + 1]! : knots[0]! + count;
    if (to - from < 2) return false;
    found.add(((from + to) >> 1) % count);
    return true;
  };
  for (let k = 0; k < pieces; k++) {
    const from = knots[k]!;
    const to = k + 1 < pieces ? knots[k + 1]! : knots[0]! + count;
    let most = 0;
    let squares = 0;
    for (let i = from; i <= to; i++) {
      const residual = Math.abs(residuals[i % count]!) / unit;
      most = Math.max(most, residual);
      squares += residual * residual;
    }
    const points = to - from + 1;
    const expected = usualResidual * (1 + 1.2 / Math.sqrt(points));
    if (!(most > largestResidual || Math.sqrt(squares / points) > expected)) continue;
    // A piece without points inside is stiff because of its neighbours.
    for (let away = 0; away < pieces; away++) if (split(k + away) || split(k - away)) break;
  }
  return found;
}
