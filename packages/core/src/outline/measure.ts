import { type PointBetween, parabolaTop, pointBetween } from './between-nodes.js';
import type { Border } from './family.js';
import type { CurveNodes } from './nodes.js';
import { isSimple } from './simple.js';

/** What can be said of an outline without its stresses. Lengths in mm, area in mm2. Filled again for every outline. */
export interface OutlineMeasure {
  /** Positive for a counter-clockwise outline. */
  area: number;
  perimeter: number;
  centroidX: number;
  centroidY: number;
  width: number;
  height: number;
  /** Least radius of curvature, concave parts included. */
  edgeRadius: number;
  /** Least signed distance to the border: negative where the outline leaves its room; Infinity without border. */
  wall: number;
  /** The outline does not cross itself and turns once, counter-clockwise. */
  simple: boolean;
}

/** An empty measure, for `measureOutline` to fill again and again. */
export function createOutlineMeasure(): OutlineMeasure {
  return {
    area: Number.NaN,
    perimeter: Number.NaN,
    centroidX: Number.NaN,
    centroidY: Number.NaN,
    width: Number.NaN,
    height: Number.NaN,
    edgeRadius: Number.NaN,
    wall: Number.NaN,
    simple: false,
  };
}

/** What one measure works in: one value per node, as many as the largest outline seen has. */
interface Scratch {
  curvature: Float64Array;
  distance: Float64Array;
  readonly point: PointBetween;
}

/** Not in use: one, and more only where the distance of a border measures outlines itself. */
const idle: Scratch[] = [];

/**
 * Measures an outline; allocates nothing once the largest node count has been seen.
 *
 * Area, perimeter and centroid are trapezoidal sums, spectrally exact on smooth outlines. Least radius and wall are
 * sought between the nodes as well: at every node that is a local extreme near the overall one, at quarter steps of the
 * quintic to both neighbours (see `pointBetween`), then by a parabola. With the nodes that `nodesNeeded` asks for, the
 * radius errs by at most 0.3 % and the wall by 0.3 micrometres (140 to 600 random outlines of each family in a filler of
 * 5 mm bend radius, against 4096 nodes); with 64 nodes by at most 3 % on the sharpest of them, which ask for 200. An
 * outline with NaN in it gives NaN everywhere and is not simple.
 */
export function measureOutline(nodes: CurveNodes, border: Border, out: OutlineMeasure): void {
  const { count, x, y, dx, dy, ddx, ddy } = nodes;
  const scratch = idle.pop() ?? createScratch();
  if (scratch.curvature.length < count) {
    scratch.curvature = new Float64Array(count);
    scratch.distance = new Float64Array(count);
  }
  const { curvature, distance } = scratch;
  // About a point of the outline, so that a far-away origin costs no digits.
  const ox = x[0]!;
  const oy = y[0]!;
  let area2 = 0;
  let momentX2 = 0;
  let momentY2 = 0;
  let perimeter = 0;
  let largestCurvature = 0;
  let wall = Number.POSITIVE_INFINITY;
  for (let j = 0; j < count; j++) {
    const px = x[j]! - ox;
    const py = y[j]! - oy;
    const ux = dx[j]!;
    const uy = dy[j]!;
    const speed2 = ux * ux + uy * uy;
    const speed = Math.sqrt(speed2);
    area2 += px * uy - py * ux;
    momentX2 += px * px * uy;
    momentY2 -= py * py * ux;
    perimeter += speed;
    const bend = Math.abs(ux * ddy[j]! - uy * ddx[j]!) / (speed2 * speed);
    curvature[j] = bend;
    if (bend > largestCurvature) largestCurvature = bend;
    const away = border.distance(x[j]!, y[j]!);
    distance[j] = away;
    if (away < wall) wall = away;
  }
  const h = (2 * Math.PI) / count;
  out.area = (area2 * h) / 2;
  out.perimeter = perimeter * h;
  out.centroidX = ox + momentX2 / area2;
  out.centroidY = oy + momentY2 / area2;
  out.width = extent(x, dx, ddx, count);
  out.height = extent(y, dy, ddy, count);
  if (!Number.isFinite(area2) || !Number.isFinite(perimeter)) {
    out.edgeRadius = Number.NaN;
    out.wall = Number.NaN;
    out.simple = false;
  } else {
    out.edgeRadius = 1 / largestBetween(nodes, largestCurvature, scratch);
    out.wall = Number.isFinite(wall) ? leastDistanceBetween(nodes, border, wall, scratch) : wall;
    out.simple = area2 > 0 && isSimple(nodes, out.centroidX, out.centroidY);
  }
  idle.push(scratch);
}

function createScratch(): Scratch {
  return { curvature: new Float64Array(0), distance: new Float64Array(0), point: { x: 0, y: 0, curvature: 0 } };
}

/** Size along one axis: the extreme nodes, corrected by one Newton step to where the derivative vanishes. */
function extent(x: Float64Array, dx: Float64Array, ddx: Float64Array, count: number): number {
  let least = 0;
  let most = 0;
  for (let j = 1; j < count; j++) {
    if (x[j]! < x[least]!) least = j;
    if (x[j]! > x[most]!) most = j;
  }
  return beyond(x, dx, ddx, most, -1) - beyond(x, dx, ddx, least, 1);
}

/** Where an outline is lowest and highest, mm, between its nodes, too. */
export const lowestOf = ({ y, dy, ddy, count }: CurveNodes): number => {
  let least = 0;
  for (let j = 1; j < count; j++) if (y[j]! < y[least]!) least = j;
  return beyond(y, dy, ddy, least, 1);
};
export const highestOf = ({ y, dy, ddy, count }: CurveNodes): number => {
  let most = 0;
  for (let j = 1; j < count; j++) if (y[j]! > y[most]!) most = j;
  return beyond(y, dy, ddy, most, -1);
};

function beyond(x: Float64Array, dx: Float64Array, ddx: Float64Array, j: number, sign: 1 | -1): number {
  const bend = ddx[j]!;
  return bend * sign > 0 ? x[j]! - dx[j]! ** 2 / (2 * bend) : x[j]!;
}

/** Largest curvature: peaks that reach three fifths of the largest node value are followed between the nodes. */
function largestBetween(nodes: CurveNodes, largestAtNodes: number, { curvature, point }: Scratch): number {
  const { count } = nodes;
  let largest = largestAtNodes;
  for (let j = 0; j < count; j++) {
    const here = curvature[j]!;
    const before = j === 0 ? count - 1 : j - 1;
    const after = j + 1 === count ? 0 : j + 1;
    if (here < 0.6 * largestAtNodes || here < curvature[before]! || here < curvature[after]!) continue;
    let peak = here;
    let left = curvatureBetween(nodes, before, 0.75, point);
    let right = curvatureBetween(nodes, j, 0.25, point);
    if (left > peak || right > peak) {
      // Walk uphill in quarter steps; the peak lies before the neighbour.
      const goLeft = left > right;
      let behind = peak;
      peak = goLeft ? left : right;
      let ahead = peak;
      for (let step = 2; step <= 4; step++) {
        ahead = goLeft
          ? curvatureBetween(nodes, before, 1 - step / 4, point)
          : curvatureBetween(nodes, j, step / 4, point);
        if (ahead <= peak) break;
        behind = peak;
        peak = ahead;
      }
      left = behind;
      right = ahead;
    }
    largest = Math.max(largest, parabolaTop(left, peak, right));
  }
  return largest;
}

function curvatureBetween(nodes: CurveNodes, j: number, fraction: number, point: PointBetween): number {
  pointBetween(nodes, j, fraction, point);
  return Math.abs(point.curvature);
}

/**
 * Least distance to the border. An outline bulges towards it between two nodes by less than half their spacing, so
 * local minima within that of the least node value are followed.
 */
function leastDistanceBetween(nodes: CurveNodes, border: Border, leastAtNodes: number, scratch: Scratch): number {
  const { count, dx, dy } = nodes;
  const { distance, point } = scratch;
  const h = (2 * Math.PI) / count;
  let least = leastAtNodes;
  for (let j = 0; j < count; j++) {
    const here = distance[j]!;
    const before = j === 0 ? count - 1 : j - 1;
    const after = j + 1 === count ? 0 : j + 1;
    if (here > distance[before]! || here > distance[after]!) continue;
    if (here - leastAtNodes > (h * Math.sqrt(dx[j]! ** 2 + dy[j]! ** 2)) / 2) continue;
    let nearest = here;
    let left = distanceBetween(nodes, border, before, 0.75, point);
    let right = distanceBetween(nodes, border, j, 0.25, point);
    if (left < nearest || right < nearest) {
      const goLeft = left < right;
      let behind = nearest;
      nearest = goLeft ? left : right;
      let ahead = nearest;
      for (let step = 2; step <= 4; step++) {
        ahead = goLeft
          ? distanceBetween(nodes, border, before, 1 - step / 4, point)
          : distanceBetween(nodes, border, j, step / 4, point);
        if (ahead >= nearest) break;
        behind = nearest;
        nearest = ahead;
      }
      left = behind;
      right = ahead;
    }
    least = Math.min(least, -parabolaTop(-left, -nearest, -right));
  }
  return least;
}

function distanceBetween(nodes: CurveNodes, border: Border, j: number, fraction: number, point: PointBetween): number {
  pointBetween(nodes, j, fraction, point);
  return border.distance(point.x, point.y);
}
