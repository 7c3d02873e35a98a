import Delaunator from 'delaunator';
import type { CurveNodes } from './nodes.js';

/** A circle, mm. */
export interface Circle {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** A ring of straight sides: side `i` runs from point `i` to the next. */
interface Polygon {
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
}

/** Spacing of points on the border over the radius of the circle, which errs by at most an eighth of the square, 5e-5. */
const spacingShare = 0.02;
/** A circle that can be larger by less than this share is not looked for. */
const tolerance = 1e-5;
/** Keeps an outline that collapses to a line from asking for points without end. */
const mostPoints = 50_000;

/**
 * The largest circle inside a simple outline: the largest sensor that fits. Its centre is a corner of the Voronoi diagram
 * of points on the border (Toussaint, Int. J. Computer and Information Sciences 12 (1983) 347-358; from memory): the centres
 * of the Delaunay triangles are tried, largest first, each with its distance to the polygon of the nodes. Points lie as dense
 * as the circle asks for, whose radius is at least `area / perimeter` (Bonnesen's inequality; Osserman, Amer. Math. Monthly
 * 86 (1979) 1-29; from memory).
 *
 * Radius within 1e-4 of that in the polygon, which lies inside convex parts by `curvature spacing^2 / 8`: use 256 nodes or
 * more. Radius 0 at NaN where there is none. Not for hot loops: 1 to 10 ms.
 */
export function largestInscribedCircle(nodes: CurveNodes): Circle {
  const { area, perimeter } = sizeOf(nodes);
  const points = subdivided(nodes, Math.max((spacingShare * area) / perimeter, perimeter / mostPoints));
  let best: Circle = { x: Number.NaN, y: Number.NaN, radius: 0 };
  for (const { x, y, radius } of emptyCircles(points)) {
    if (radius <= best.radius * (1 + tolerance)) break;
    const clear = insideDistance(nodes, x, y);
    if (clear > best.radius) best = { x, y, radius: clear };
  }
  return best;
}

/** Circles through three points with no point inside, largest first. */
function emptyCircles(points: Polygon): Circle[] {
  const { x, y } = points;
  const coordinates = new Float64Array(2 * x.length);
  for (let i = 0; i < x.length; i++) {
    coordinates[2 * i] = x[i]!;
    coordinates[2 * i + 1] = y[i]!;
  }
  const { triangles } = new Delaunator(coordinates);
  const circles: Circle[] = [];
  for (let t = 0; t < triangles.length; t += 3)
    circles.push(circumcircle(points, triangles[t]!, triangles[t + 1]!, triangles[t + 2]!));
  // Three points on a line have no circle.
  return circles.filter(({ radius }) => radius < Number.POSITIVE_INFINITY).sort((a, b) => b.radius - a.radius);
}

/** About the first corner, so that a far-away origin costs no digits. */
function circumcircle({ x, y }: Polygon, a: number, b: number, c: number): Circle {
  const [bx, by] = [x[b]! - x[a]!, y[b]! - y[a]!];
  const [cx, cy] = [x[c]! - x[a]!, y[c]! - y[a]!];
  const twiceCross = 2 * (bx * cy - by * cx);
  const [b2, c2] = [bx * bx + by * by, cx * cx + cy * cy];
  const px = (cy * b2 - by * c2) / twiceCross;
  const py = (bx * c2 - cx * b2) / twiceCross;
  return { x: x[a]! + px, y: y[a]! + py, radius: Math.hypot(px, py) };
}

/** The polygon with points added, so that no two neighbours lie further apart than `spacing`. */
function subdivided({ x, y }: Polygon, spacing: number): Polygon {
  const out = { x: [] as number[], y: [] as number[] };
  for (let i = 0, count = x.length; i < count; i++) {
    const j = (i + 1) % count;
    const [ex, ey] = [x[j]! - x[i]!, y[j]! - y[i]!];
    const parts = Math.max(1, Math.ceil(Math.hypot(ex, ey) / spacing));
    for (let k = 0; k < parts; k++) {
      out.x.push(x[i]! + (ex * k) / parts);
      out.y.push(y[i]! + (ey * k) / parts);
    }
  }
  return out;
}

function sizeOf({ x, y }: Polygon): { readonly area: number; readonly perimeter: number } {
  let [twiceArea, perimeter] = [0, 0];
  for (let j = 0, i = x.length - 1; j < x.length; i = j++) {
    const [ex, ey] = [x[j]! - x[i]!, y[j]! - y[i]!];
    twiceArea += (x[i]! - x[0]!) * ey - (y[i]! - y[0]!) * ex;
    perimeter += Math.hypot(ex, ey);
  }
  return { area: twiceArea / 2, perimeter };
}

/** Distance of a point to a polygon, negative outside. */
function insideDistance({ x, y }: Polygon, px: number, py: number): number {
  let least = Number.POSITIVE_INFINITY;
  let inside = false;
  for (let j = 0, i = x.length - 1; j < x.length; i = j++) {
    const ax = x[i]! - px;
    const ay = y[i]! - py;
    const bx = x[j]! - px;
    const by = y[j]! - py;
    const ex = bx - ax;
    const ey = by - ay;
    if (ay > 0 !== by > 0 && 0 < ax - (ay * ex) / ey) inside = !inside;
    const along = Math.min(1, Math.max(0, -(ax * ex + ay * ey) / (ex * ex + ey * ey)));
    least = Math.min(least, (ax + along * ex) ** 2 + (ay + along * ey) ** 2);
  }
  return inside ? Math.sqrt(least) : -Math.sqrt(least);
}
