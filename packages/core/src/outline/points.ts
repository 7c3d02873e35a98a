import { InputError } from '../errors.js';
import type { Curve } from './family.js';
import type { CurveNodes } from './nodes.js';
import { type PeriodicSpline, periodicSpline, type SplinePoint, splinePoint } from './periodic-spline.js';
import { reflect } from './placement.js';
import { crossesItself } from './simple.js';

const fewestPoints = 32;
/** Crossing is tested pair by pair, which takes a second beyond this. */
const mostPoints = 10_000;
/** Largest difference between both halves of a mirror-symmetric outline, in its size. */
const mirrorTolerance = 1e-9;

/**
 * An outline given as points: a periodic cubic spline through them, parametrised by chord length, with nodes at equal
 * steps. At least 32 points, mm, in order; a last point equal to the first is left out, clockwise points are reversed.
 * Error of the fourth order in the distance of the points. Throws InputError for points that are no simple closed outline.
 */
export function fitPoints(points: ReadonlyArray<readonly [number, number]>): Curve {
  const { x, y } = checkedPoints(points);
  const spline = periodicSpline(x, y);
  const bottom = mirrorBottom(spline);
  const mirror = bottom !== undefined;
  const start = bottom ?? spline.knots[lowest(y)]!;
  return {
    mirror,
    place(nodes) {
      placeFrom(spline, start, nodes, mirror ? nodes.count / 2 : nodes.count);
      if (mirror) reflect(nodes);
    },
  };
}

function checkedPoints(points: ReadonlyArray<readonly [number, number]>): { x: Float64Array; y: Float64Array } {
  points.forEach((point, i) => {
    if (!(Array.isArray(point) && point.length === 2 && point.every(Number.isFinite)))
      refuse(`points[${i}]`, 'two finite numbers, x and y in mm', JSON.stringify(point), 'correct the point');
  });
  if (points.length > mostPoints)
    refuse('points', `at most ${mostPoints} points`, `${points.length}`, 'thin the points out');
  const least = 1e-9 * largestExtent(points);
  const apart = (i: number, j: number) =>
    Math.hypot(points[j]![0] - points[i]![0], points[j]![1] - points[i]![1]) > least;
  const closed = points.length > 1 && !apart(0, points.length - 1);
  const count = closed ? points.length - 1 : points.length;
  if (!(count >= fewestPoints))
    refuse('points', `at least ${fewestPoints} points`, `${count}`, 'sample the outline more finely');
  for (let i = 0; i < count; i++) {
    const next = (i + 1) % count;
    if (!apart(i, next))
      refuse(`points[${next}]`, 'a point apart from the one before', JSON.stringify(points[next]), 'remove the double');
  }
  const order = signedArea(points, count) < 0 ? (i: number) => count - 1 - i : (i: number) => i;
  const x = Float64Array.from({ length: count }, (_, i) => points[order(i)]![0]);
  const y = Float64Array.from({ length: count }, (_, i) => points[order(i)]![1]);
  if (crossesItself(x, y, count))
    refuse('points', 'an outline that does not cross itself', 'edges that meet', 'give the points in order around it');
  return { x, y };
}

function refuse(path: string, expected: string, received: string, remedy: string): never {
  throw new InputError({ path, expected, received, remedy });
}

function largestExtent(points: ReadonlyArray<readonly [number, number]>): number {
  const extent = (values: number[]) => Math.max(...values) - Math.min(...values);
  return Math.max(extent(points.map((p) => p[0])), extent(points.map((p) => p[1])));
}

function signedArea(points: ReadonlyArray<readonly [number, number]>, count: number): number {
  const [ox, oy] = points[0]!;
  let area = 0;
  for (let i = 0; i < count; i++) {
    const [ax, ay] = points[i]!;
    const [bx, by] = points[(i + 1) % count]!;
    area += ((ax - ox) * (by - oy) - (bx - ox) * (ay - oy)) / 2;
  }
  return area;
}

function lowest(y: Float64Array): number {
  return y.indexOf(Math.min(...y));
}

/** Writes the first `rows` nodes at equal steps of the spline's parameter, the first half a step after `start`. */
function placeFrom(spline: PeriodicSpline, start: number, nodes: CurveNodes, rows: number): void {
  const { knots, period } = spline;
  const { count, x, y, dx, dy, ddx, ddy } = nodes;
  const rate = period / (2 * Math.PI);
  const last = knots.length - 1;
  let piece = 0;
  for (let j = 0; j < rows; j++) {
    const t = wrapped(start + ((j + 0.5) * period) / count, period);
    if (t < knots[piece]!) piece = 0;
    while (piece < last && knots[piece + 1]! <= t) piece++;
    splinePoint(spline, piece, t - knots[piece]!, point);
    x[j] = point.x;
    y[j] = point.y;
    dx[j] = point.dx * rate;
    dy[j] = point.dy * rate;
    ddx[j] = point.ddx * rate * rate;
    ddy[j] = point.ddy * rate * rate;
  }
}

const point: SplinePoint = { x: 0, y: 0, dx: 0, dy: 0, ddx: 0, ddy: 0 };

function wrapped(t: number, period: number): number {
  return t - period * Math.floor(t / period);
}

/** Parameter of the bottom of a spline that is mirror-symmetric in `x = 0`; undefined for any other. */
function mirrorBottom(spline: PeriodicSpline): number | undefined {
  const crossings = axisCrossings(spline);
  if (crossings.length !== 2) return undefined;
  const start = crossings[0]!.y < crossings[1]!.y ? crossings[0]!.t : crossings[1]!.t;
  const size = Math.max(...spline.x.map(Math.abs), Math.max(...spline.y) - Math.min(...spline.y));
  const right: SplinePoint = { ...point };
  const left: SplinePoint = { ...point };
  // Four places per piece and more: differences of cubic pieces cannot hide between them.
  const steps = 4 * spline.knots.length;
  for (let i = 0; i <= steps; i++) {
    const away = (i * spline.period) / (2 * steps);
    pointAt(spline, start + away, right);
    pointAt(spline, start - away, left);
    if (!(Math.hypot(right.x + left.x, right.y - left.y) <= mirrorTolerance * size)) return undefined;
  }
  return start;
}

function pointAt(spline: PeriodicSpline, t: number, out: SplinePoint): void {
  const { knots, period } = spline;
  const at = wrapped(t, period);
  let low = 0;
  let high = knots.length;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (knots[middle]! <= at) low = middle;
    else high = middle;
  }
  splinePoint(spline, low, at - knots[low]!, out);
}

/** Where the spline crosses `x = 0`, by the signs at the knots and bisection within the piece. */
function axisCrossings(spline: PeriodicSpline): { t: number; y: number }[] {
  const { knots, period, x } = spline;
  const found: { t: number; y: number }[] = [];
  const at: SplinePoint = { ...point };
  for (let i = 0; i < knots.length; i++) {
    const next = (i + 1) % knots.length;
    if (x[i]! < 0 === x[next]! < 0) continue;
    let low = 0;
    let high = (next === 0 ? period : knots[next]!) - knots[i]!;
    for (let halving = 0; halving < 60; halving++) {
      const middle = (low + high) / 2;
      splinePoint(spline, i, middle, at);
      if (at.x < 0 === x[i]! < 0) low = middle;
      else high = middle;
    }
    splinePoint(spline, i, low, at);
    found.push({ t: knots[i]! + low, y: at.y });
  }
  return found;
}
