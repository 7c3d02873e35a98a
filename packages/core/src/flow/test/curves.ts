import { type CurveNodes, createCurveNodes, nodeParameter } from '../../outline/index.js';

/** Conformal image of the unit circle, `z = size (zeta + m zeta^n)`, turned by `turn` radians. */
export function trochoid(count: number, size: number, m: number, n: number, turn = 0): CurveNodes {
  const nodes = createCurveNodes(count);
  for (let j = 0; j < count; j++) {
    const p = nodeParameter(j, count);
    const along = (k: number, factor: number, quarter: number) =>
      size * factor * Math.cos(k * p + turn + (quarter * Math.PI) / 2);
    nodes.x[j] = along(1, 1, 0) + along(n, m, 0);
    nodes.y[j] = along(1, 1, -1) + along(n, m, -1);
    nodes.dx[j] = along(1, 1, 1) + along(n, n * m, 1);
    nodes.dy[j] = along(1, 1, 0) + along(n, n * m, 0);
    nodes.ddx[j] = along(1, 1, 2) + along(n, n * n * m, 2);
    nodes.ddy[j] = along(1, 1, 1) + along(n, n * n * m, 1);
  }
  return nodes;
}

/** Ellipse of semi-axes `a` and `b` about `(x0, y0)`, turned by `turn` radians. */
export function ellipse(count: number, a: number, b: number, x0 = 0, y0 = 0, turn = 0): CurveNodes {
  const nodes = createCurveNodes(count);
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  for (let j = 0; j < count; j++) {
    const p = nodeParameter(j, count);
    const [px, py, ux, uy] = [a * Math.cos(p), b * Math.sin(p), -a * Math.sin(p), b * Math.cos(p)];
    nodes.x[j] = x0 + c * px - s * py;
    nodes.y[j] = y0 + s * px + c * py;
    nodes.dx[j] = c * ux - s * uy;
    nodes.dy[j] = s * ux + c * uy;
    nodes.ddx[j] = -(c * px - s * py);
    nodes.ddy[j] = -(s * px + c * py);
  }
  return nodes;
}

/**
 * A closed polygon, corners counter-clockwise, with `perSide` nodes on every side drawn towards its ends by the
 * substitution of Kress (Numer. Math. 58 (1990) 145-161) of order `order`. No node lies on a corner, where the speed is
 * zero: the trapezoidal rule keeps a high order.
 */
export function polygon(corners: ReadonlyArray<readonly [number, number]>, perSide: number, order: number): CurveNodes {
  const count = corners.length * perSide;
  const nodes = createCurveNodes(count);
  const length = (2 * Math.PI) / corners.length;
  for (let side = 0; side < corners.length; side++) {
    const [ax, ay] = corners[side]!;
    const [bx, by] = corners[(side + 1) % corners.length]!;
    for (let i = 0; i < perSide; i++) {
      const [w, w1, w2] = graded((i + 0.5) / perSide, order);
      const j = side * perSide + i;
      nodes.x[j] = ax + w * (bx - ax);
      nodes.y[j] = ay + w * (by - ay);
      nodes.dx[j] = ((bx - ax) * w1) / length;
      nodes.dy[j] = ((by - ay) * w1) / length;
      nodes.ddx[j] = ((bx - ax) * w2) / length ** 2;
      nodes.ddy[j] = ((by - ay) * w2) / length ** 2;
    }
  }
  return nodes;
}

/** Kress's substitution on [0, 1] with its first two derivatives: `w = v^p / (v^p + (1-v)^p)`, `v` a cubic of `t`. */
function graded(t: number, p: number): [number, number, number] {
  const s = 2 * t - 1;
  const a = 0.5 - 1 / p;
  const v = a * s ** 3 + s / p + 0.5;
  const v1 = 2 * (3 * a * s * s + 1 / p);
  const v2 = 4 * 6 * a * s;
  const [f, g] = [v ** p, (1 - v) ** p];
  const w = f / (f + g);
  // log(w / (1 - w)) = p log(v / (1 - v))
  const l1 = (p * v1) / (v * (1 - v));
  const l2 = (p * v2) / (v * (1 - v)) - (p * v1 * v1 * (1 - 2 * v)) / (v * (1 - v)) ** 2;
  const w1 = w * (1 - w) * l1;
  return [w, w1, w1 * (1 - 2 * w) * l1 + w * (1 - w) * l2];
}
