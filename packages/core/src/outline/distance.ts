import type { CurveNodes } from './nodes.js';

/** Distance of a place from an outline, between nodes too, mm. */
export const distanceToOutline = (nodes: CurveNodes, px: number, py: number): number =>
  Math.abs(distanceOutside(nodes, px, py));

/** The same, negative inside: from the nearest node on, along its Taylor polynomial of second degree. */
export function distanceOutside({ count, x, y, dx, dy, ddx, ddy }: CurveNodes, px: number, py: number): number {
  let at = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let j = 0; j < count; j++) {
    const squared = (x[j]! - px) ** 2 + (y[j]! - py) ** 2;
    if (squared >= least) continue;
    least = squared;
    at = j;
  }
  // Newton's steps to where the place is seen along the normal, at most half a spacing away.
  const half = Math.PI / count;
  let step = 0;
  let nearest = Number.POSITIVE_INFINITY;
  let outside = true;
  for (let k = 0; k < 3; k++) {
    const ex = x[at]! + step * (dx[at]! + (step / 2) * ddx[at]!) - px;
    const ey = y[at]! + step * (dy[at]! + (step / 2) * ddy[at]!) - py;
    const tx = dx[at]! + step * ddx[at]!;
    const ty = dy[at]! + step * ddy[at]!;
    const distance = Math.hypot(ex, ey);
    if (distance <= nearest) {
      nearest = distance;
      outside = ex * ty < ey * tx;
    }
    const bend = tx * tx + ty * ty + ex * ddx[at]! + ey * ddy[at]!;
    if (!(bend > 0)) break;
    step = Math.min(half, Math.max(-half, step - (ex * tx + ey * ty) / bend));
  }
  return outside ? nearest : -nearest;
}
