import type { CurveNodes } from '../outline/index.js';

/** A point well inside an outline, which removes the hydrostatic null vector of the edge equation. mm or local */
export interface InnerPoint {
  x: number;
  y: number;
}

/**
 * Distance from the edge, in spacings of the nodes there, at which a point is deep enough: the trapezoidal rule of its term errs by
 * `exp(-2 pi depth)` times about ten, 3e-5 of the peak at 2 and 3e-8 at 3 (ellipses with axes of 1.7 to 13). Slopes hold the point still; where it
 * counts for less than that, differences, which move it, agree.
 */
const enough = 3;
/** Nodes from which deeper points are sought. */
const sought = 24;

/**
 * Writes the point with which the edge at `nodes` is solved: its centroid, or where that is outside or too near to the edge for the nodes there (bent and thin
 * outlines), the middle of one of the largest circles inside: the first that is deep enough, else the deepest. With `mirror` such a point may lie beside the axis and is
 * used together with its mirror image; the centroid lies on it. Allocates nothing.
 */
export function chooseInnerPoint(nodes: CurveNodes, mirror: boolean, out: InnerPoint): void {
  writeCentroid(nodes, mirror, out);
  let deepest = depthOf(nodes, out.x, out.y);
  if (deepest >= enough) return;
  const seen = mirror ? nodes.count / 2 : nodes.count;
  const stride = Math.max(1, Math.floor(seen / sought));
  for (let j = stride >> 1; j < seen && !(deepest >= enough); j += stride) {
    const { x, y, dx, dy } = nodes;
    const radius = largestRadius(nodes, j);
    const perSpeed = radius / Math.sqrt(dx[j]! ** 2 + dy[j]! ** 2);
    const middleX = x[j]! - perSpeed * dy[j]!;
    const middleY = y[j]! + perSpeed * dx[j]!;
    const depth = depthOf(nodes, middleX, middleY);
    if (!(depth > deepest)) continue;
    deepest = depth;
    out.x = middleX;
    out.y = middleY;
  }
}

/** Trapezoidal sums about a point of the outline, so that a far-away origin costs no digits. */
function writeCentroid({ count, x, y, dx, dy }: CurveNodes, mirror: boolean, out: InnerPoint): void {
  const ox = x[0]!;
  const oy = y[0]!;
  let area2 = 0;
  let momentX2 = 0;
  let momentY2 = 0;
  for (let j = 0; j < count; j++) {
    const px = x[j]! - ox;
    const py = y[j]! - oy;
    area2 += px * dy[j]! - py * dx[j]!;
    momentX2 += px * px * dy[j]!;
    momentY2 -= py * py * dx[j]!;
  }
  out.x = mirror ? 0 : ox + momentX2 / area2;
  out.y = oy + momentY2 / area2;
}

/** Distance of a point from the edge in spacings of the nodes, least over the nodes; 0 outside. */
function depthOf({ count, x, y, dx, dy }: CurveNodes, px: number, py: number): number {
  let turns = 0;
  let nearest = Number.POSITIVE_INFINITY;
  for (let j = 0; j < count; j++) {
    const ex = x[j]! - px;
    const ey = y[j]! - py;
    const ux = dx[j]!;
    const uy = dy[j]!;
    const squared = ex * ex + ey * ey;
    // Im oint dt / (t - z) counts the turns around the point.
    turns += (uy * ex - ux * ey) / squared;
    const share = squared / (ux * ux + uy * uy);
    if (share < nearest) nearest = share;
  }
  return turns > count / 2 ? (Math.sqrt(nearest) * count) / (2 * Math.PI) : 0;
}

/** Radius of the largest circle inside that touches the edge at node `i`, as far as the nodes tell: `|d|^2 / (2 n d)` to the others. */
function largestRadius({ count, x, y, dx, dy }: CurveNodes, i: number): number {
  const speed = Math.sqrt(dx[i]! ** 2 + dy[i]! ** 2);
  const nx = -dy[i]! / speed;
  const ny = dx[i]! / speed;
  let bend = 0;
  for (let j = 0; j < count; j++) {
    const ex = x[j]! - x[i]!;
    const ey = y[j]! - y[i]!;
    const inwards = nx * ex + ny * ey;
    const squared = ex * ex + ey * ey;
    if (inwards > bend * squared) bend = inwards / squared;
  }
  return 1 / (2 * bend);
}
