import { type CurveNodes, createCurveNodes } from '../../outline/index.js';

/**
 * A mirror-symmetric oval as a uniform cubic B-spline of `knots` points, `perKnot` nodes from knot to knot (odd, so that every
 * node of a coarse sampling is one of three times as many): curvature is continuous, its slope jumps at every knot.
 */
export function splineOval(knots: number, perKnot: number): CurveNodes {
  const points = Array.from({ length: knots }, (_, i) => {
    const s = -Math.PI / 2 + (2 * Math.PI * (i + 0.5)) / knots;
    return [1.6 * Math.cos(s) * (1 + 0.15 * Math.sin(2 * s) ** 2), 1.2 + 0.8 * Math.sin(s)] as const;
  });
  const count = knots * perKnot;
  const nodes = createCurveNodes(count);
  const rate = knots / (2 * Math.PI);
  for (let j = 0; j < count; j++) {
    const u = ((j + 0.5) / count) * knots - 0.5;
    const f = u - Math.floor(u);
    const value = [(1 - f) ** 3, 3 * f ** 3 - 6 * f * f + 4, -3 * f ** 3 + 3 * f * f + 3 * f + 1, f ** 3];
    const slope = [-((1 - f) ** 2), 3 * f * f - 4 * f, -3 * f * f + 2 * f + 1, f * f];
    const bend = [1 - f, 3 * f - 2, 1 - 3 * f, f];
    for (let a = 0; a < 4; a++) {
      const [x, y] = points[(Math.floor(u) - 1 + a + knots) % knots]!;
      nodes.x[j]! += (value[a]! / 6) * x;
      nodes.y[j]! += (value[a]! / 6) * y;
      nodes.dx[j]! += (rate * slope[a]! * x) / 2;
      nodes.dy[j]! += (rate * slope[a]! * y) / 2;
      nodes.ddx[j]! += rate ** 2 * bend[a]! * x;
      nodes.ddy[j]! += rate ** 2 * bend[a]! * y;
    }
  }
  return nodes;
}
