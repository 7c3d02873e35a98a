import type { CurveNodes } from './nodes.js';

/** A circle, mm. */
export interface Circle {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/**
 * The largest circle inside a simple outline: the largest sensor that fits. Searches squares by their best possible
 * radius (branch and bound), with the distance to the polygon of the nodes: exact but for the polygon, which lies inside
 * convex parts by `curvature spacing^2 / 8`. Use 256 nodes or more. Not for hot loops: 1 ms.
 */
export function largestInscribedCircle(nodes: CurveNodes): Circle {
  const { x, y } = nodes;
  const [left, right] = [Math.min(...x), Math.max(...x)];
  const [bottom, top] = [Math.min(...y), Math.max(...y)];
  const size = Math.max(right - left, top - bottom);
  const tolerance = 1e-6 * size;
  let best: Circle = { x: Number.NaN, y: Number.NaN, radius: 0 };
  let squares = [{ x: (left + right) / 2, y: (bottom + top) / 2, half: size / 2, bound: Number.POSITIVE_INFINITY }];
  while (squares.length > 0) {
    const smaller: typeof squares = [];
    for (const square of squares) {
      if (square.bound <= best.radius + tolerance) continue;
      const half = square.half / 2;
      for (const [right, up] of quarters) {
        const centreX = square.x + right * half;
        const centreY = square.y + up * half;
        const radius = insideDistance(nodes, centreX, centreY);
        if (radius > best.radius) best = { x: centreX, y: centreY, radius };
        smaller.push({ x: centreX, y: centreY, half, bound: radius + half * Math.SQRT2 });
      }
    }
    squares = smaller.filter(({ bound }) => bound > best.radius + tolerance);
  }
  return best;
}

const quarters = [
  [-1, -1],
  [1, -1],
  [-1, 1],
  [1, 1],
] as const;

/** Distance of a point to the polygon of the nodes, negative outside. */
function insideDistance({ count, x, y }: CurveNodes, px: number, py: number): number {
  let least = Number.POSITIVE_INFINITY;
  let inside = false;
  for (let j = 0, i = count - 1; j < count; i = j++) {
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
