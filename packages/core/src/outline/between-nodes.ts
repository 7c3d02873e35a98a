import type { CurveNodes } from './nodes.js';

/**
 * The outline between two neighbouring nodes: the quintic that takes position, first and second derivative from both
 * (Hermite interpolation, sixth order in position, fourth order in curvature). One object is filled again and again.
 */
export interface PointBetween {
  x: number;
  y: number;
  /** Signed curvature, 1/mm; positive where the outline is convex. */
  curvature: number;
}

/** Evaluates `fraction` (0 to 1) of the way from node `j` to the next one. */
export function pointBetween(nodes: CurveNodes, j: number, fraction: number, out: PointBetween): void {
  const { count, x, y, dx, dy, ddx, ddy } = nodes;
  const k = j + 1 === count ? 0 : j + 1;
  const h = (2 * Math.PI) / count;
  const t = fraction;
  const x0 = x[j]!;
  const y0 = y[j]!;
  const ax = h * dx[j]!;
  const ay = h * dy[j]!;
  const bx = (h * h * ddx[j]!) / 2;
  const by = (h * h * ddy[j]!) / 2;
  // What the second-order Taylor polynomial of node j misses at node k: position, slope and curvature there.
  const px = x[k]! - x0 - ax - bx;
  const py = y[k]! - y0 - ay - by;
  const qx = h * dx[k]! - ax - 2 * bx;
  const qy = h * dy[k]! - ay - 2 * by;
  const rx = (h * h * ddx[k]!) / 2 - bx;
  const ry = (h * h * ddy[k]!) / 2 - by;
  const cx = 10 * px - 4 * qx + rx;
  const cy = 10 * py - 4 * qy + ry;
  const ex = -15 * px + 7 * qx - 2 * rx;
  const ey = -15 * py + 7 * qy - 2 * ry;
  const fx = 6 * px - 3 * qx + rx;
  const fy = 6 * py - 3 * qy + ry;
  out.x = x0 + t * (ax + t * (bx + t * (cx + t * (ex + t * fx))));
  out.y = y0 + t * (ay + t * (by + t * (cy + t * (ey + t * fy))));
  const ux = ax + t * (2 * bx + t * (3 * cx + t * (4 * ex + t * 5 * fx)));
  const uy = ay + t * (2 * by + t * (3 * cy + t * (4 * ey + t * 5 * fy)));
  const vx = 2 * bx + t * (6 * cx + t * (12 * ex + t * 20 * fx));
  const vy = 2 * by + t * (6 * cy + t * (12 * ey + t * 20 * fy));
  const speed2 = ux * ux + uy * uy;
  out.curvature = (ux * vy - uy * vx) / (speed2 * Math.sqrt(speed2));
}

/** Top of the parabola through three equally spaced values, never below the middle one; the middle one is the largest. */
export function parabolaTop(before: number, middle: number, after: number): number {
  const bend = 2 * middle - before - after;
  return bend > 0 ? middle + (after - before) ** 2 / (8 * bend) : middle;
}
