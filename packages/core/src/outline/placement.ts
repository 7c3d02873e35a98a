import type { CurveNodes } from './nodes.js';

/**
 * Completes an outline whose right half, nodes `0 .. count/2 - 1`, has been written: the left half becomes its exact
 * mirror image in `x = 0`. With `x(pi - s) = -x(s)` the odd derivatives of `y` and the even ones of `x` change sign.
 */
export function reflect(nodes: CurveNodes): void {
  const { count, x, y, dx, dy, ddx, ddy } = nodes;
  for (let j = 0, k = count - 1; j < k; j++, k--) {
    x[k] = -x[j]!;
    y[k] = y[j]!;
    dx[k] = dx[j]!;
    dy[k] = -dy[j]!;
    ddx[k] = -ddx[j]!;
    ddy[k] = ddy[j]!;
  }
}

/** Moves an outline up by `dy`, mm. */
export function lift(nodes: CurveNodes, up: number): void {
  const { count, y } = nodes;
  for (let j = 0; j < count; j++) y[j]! += up;
}

/** Turns an outline about the origin by `turn`, degrees counter-clockwise, then moves the origin to `(toX, toY)`, mm. */
export function turnAndMove(nodes: CurveNodes, turn: number, toX: number, toY: number): void {
  const { count, x, y, dx, dy, ddx, ddy } = nodes;
  const c = Math.cos((turn * Math.PI) / 180);
  const s = Math.sin((turn * Math.PI) / 180);
  for (let j = 0; j < count; j++) {
    const px = x[j]!;
    x[j] = toX + c * px - s * y[j]!;
    y[j] = toY + s * px + c * y[j]!;
    const qx = dx[j]!;
    dx[j] = c * qx - s * dy[j]!;
    dy[j] = s * qx + c * dy[j]!;
    const rx = ddx[j]!;
    ddx[j] = c * rx - s * ddy[j]!;
    ddy[j] = s * rx + c * ddy[j]!;
  }
}
