import { InputError } from '../errors.js';
import { findCorner } from './corner.js';
import { lastDecimal } from './decimals.js';
import type { Curve } from './family.js';
import { mirrored } from './mirror.js';
import { alongAt, type NodeSpeed, nodeSpeed } from './node-speed.js';
import type { CurveNodes } from './nodes.js';
import { createSplinePoint, type PeriodicSpline, pointAt } from './periodic-spline.js';
import { reflect } from './placement.js';
import { crossesItself } from './simple.js';
import { smoothSpline } from './smooth-spline.js';

const fewestPoints = 32;
/** Crossing is tested pair by pair, which takes a second beyond this. */
const mostPoints = 10_000;
/** Largest difference between both halves of a mirror-symmetric outline: in its size, and in units of its last decimal. */
const mirrorTolerance = 1e-9;
const mirrorUnits = 1.5;
/** Points nearer than this many units may be one after rounding. */
const roundedTogether = 10;

/**
 * An outline given as points: a periodic cubic spline, with nodes that crowd where its curvature is large or changes. At least
 * 32 points, mm, in order; a last point equal to the first is left out, clockwise points are reversed.
 *
 * Points with few decimals were rounded: the spline passes them within the last decimal, with as few knots as that takes, and is made
 * mirror-symmetric where it is so within it. Other points lie on the spline; its error is then of the fourth order in their
 * distance. Throws InputError for points that are no simple closed outline, or that turn a corner.
 */
export function fitPoints(points: ReadonlyArray<readonly [number, number]>): Curve {
  const { x, y, unit, crowded } = checkedPoints(points);
  const fitted = smoothSpline(x, y, unit);
  // Rounding folds the polygon of crowded points; what counts there is the spline.
  const polygon = crowded ? samples(fitted, x.length) : { x, y };
  if (crossesItself(polygon.x, polygon.y, x.length))
    refuse('points', 'an outline that does not cross itself', 'edges that meet', 'give the points in order around it');
  const corner = findCorner(x, y, unit);
  if (corner !== undefined)
    refuse(
      'points',
      'a smooth outline, its bends spread over three points or more',
      `a corner of ${Math.round(Math.abs(corner.turn) * (180 / Math.PI))} degrees at x ${x[corner.point]}, y ${y[corner.point]}`,
      'round it, and give points along the rounding: stress at a sharp corner has no finite value',
    );
  const symmetric = mirrored(fitted, Math.max(mirrorTolerance * largestExtent(points), mirrorUnits * unit));
  const mirror = symmetric !== undefined;
  const spline = symmetric ?? fitted;
  const speed = nodeSpeed(spline, spline.knots[mirror ? 0 : lowest(spline.y)]!, mirror);
  return {
    mirror,
    place(nodes) {
      placeFrom(spline, speed, nodes, mirror ? nodes.count / 2 : nodes.count);
      if (mirror) reflect(nodes);
    },
  };
}

function checkedPoints(points: ReadonlyArray<readonly [number, number]>): {
  x: Float64Array;
  y: Float64Array;
  /** That of the last decimal, mm; 0 if they were not rounded. */
  unit: number;
  /** Hardly farther apart than their unit. */
  crowded: boolean;
} {
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
  const given = closed ? points.slice(0, -1) : points;
  if (!(given.length >= fewestPoints))
    refuse('points', `at least ${fewestPoints} points`, `${given.length}`, 'sample the outline more finely');
  const unit = lastDecimal(
    Float64Array.from(given, (p) => p[0]),
    Float64Array.from(given, (p) => p[1]),
  );
  // Points closer than a few units may have been rounded onto each other.
  const length = polygonLength(given);
  const crowded = length > 0 && length < roundedTogether * unit * given.length;
  const kept = given.filter((point, i) => {
    if (apart(i, i + 1 < given.length ? i + 1 : 0)) return true;
    if (!crowded)
      refuse(
        `points[${(i + 1) % given.length}]`,
        'a point apart from the one before',
        JSON.stringify(point),
        'remove the double',
      );
    return false;
  });
  const count = kept.length;
  if (!(count >= fewestPoints))
    refuse('points', `at least ${fewestPoints} points apart`, `${count}`, 'write them with more decimals');
  const order = signedArea(kept, count) < 0 ? (i: number) => count - 1 - i : (i: number) => i;
  const x = Float64Array.from({ length: count }, (_, i) => kept[order(i)]![0]);
  const y = Float64Array.from({ length: count }, (_, i) => kept[order(i)]![1]);
  return { x, y, unit, crowded };
}

function refuse(path: string, expected: string, received: string, remedy: string): never {
  throw new InputError({ path, expected, received, remedy });
}

function largestExtent(points: ReadonlyArray<readonly [number, number]>): number {
  const extent = (values: number[]) => Math.max(...values) - Math.min(...values);
  return Math.max(extent(points.map((p) => p[0])), extent(points.map((p) => p[1])));
}

function polygonLength(points: ReadonlyArray<readonly [number, number]>): number {
  return points.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = points[(i + 1) % points.length]!;
    return sum + Math.hypot(nextX - x, nextY - y);
  }, 0);
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

function samples(spline: PeriodicSpline, count: number): { x: Float64Array; y: Float64Array } {
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  const at = createSplinePoint();
  for (let i = 0; i < count; i++) {
    pointAt(spline, (i * spline.period) / count, at);
    x[i] = at.x;
    y[i] = at.y;
  }
  return { x, y };
}

/** Writes the first `rows` nodes at equal steps of `speed`'s parameter, the first half a step after its start. */
function placeFrom(spline: PeriodicSpline, speed: NodeSpeed, nodes: CurveNodes, rows: number): void {
  const { count, x, y, dx, dy, ddx, ddy } = nodes;
  const at = createSplinePoint();
  const along = new Float64Array(3);
  for (let j = 0; j < rows; j++) {
    alongAt(speed, ((j + 0.5) * 2 * Math.PI) / count, along);
    const rate = along[1]!;
    pointAt(spline, along[0]!, at);
    x[j] = at.x;
    y[j] = at.y;
    dx[j] = at.dx * rate;
    dy[j] = at.dy * rate;
    ddx[j] = at.ddx * rate * rate + at.dx * along[2]!;
    ddy[j] = at.ddy * rate * rate + at.dy * along[2]!;
  }
}
