import type { DenseMatrix } from '../linear/index.js';
import { imageSign, isPair, solvedNodes } from './fold.js';
import type { LocalEdge } from './local-nodes.js';

/**
 * Writes what the motion of an edge does to its matrix times given boundary values, with the sign of the right side: `out v = -(A phi)'`, `A` of `writeEdgeMatrix` with
 * the inner-point term, the point held still. Two rows of `rates` a node; columns are the velocities of
 * the (solved) nodes and of their first derivatives, `(x, y, dx, dy)` node by node. It is the derivative of the discrete sums
 * (derived here), so it is exact for the stress that is computed, resolved or not.
 */
export function writeEdgeRates(edge: LocalEdge, phi: Float64Array, rates: DenseMatrix): void {
  const { fold } = edge;
  const { count, x, y, dx, dy } = edge.nodes;
  const { values: out, columns: stride } = rates;
  const rows = solvedNodes(fold, count);
  const weight = 4 / count;
  const sign = imageSign(fold);
  const apart = isPair(fold);
  for (let i = 0; i < rows; i++) {
    const top = 2 * i * stride;
    const bottom = top + stride;
    const px = x[i]!;
    const py = y[i]!;
    const ax = phi[2 * i]!;
    const ay = phi[2 * i + 1]!;
    // What the node's own velocity does.
    let ownXX = 0;
    let ownXY = 0;
    let ownYX = 0;
    let ownYY = 0;
    for (let m = 0, at = top, below = bottom; m < rows; m++, at += 4, below += 4) {
      out[at] = 0;
      out[at + 1] = 0;
      out[at + 2] = 0;
      out[at + 3] = 0;
      out[below] = 0;
      out[below + 1] = 0;
      out[below + 2] = 0;
      out[below + 3] = 0;
      for (let side = fold === 'whole' ? 1 : -1; side <= 1; side += 2) {
        if (side === 1 && m === i) continue;
        // Image of node m: (-x, y), derivative (dx, -dy), value (-Re phi, Im phi) times the sign, velocities alike.
        const own = side === 1;
        const away = apart && !own ? 0 : 1;
        const ex = side * x[m]! - px;
        const ey = y[m]! - py;
        const ux = (own ? 1 : -sign) * phi[2 * m]! - away * ax;
        const uy = (own ? 1 : sign) * phi[2 * m + 1]! - away * ay;
        const tx = dx[m]!;
        const ty = side * dy[m]!;
        const q = ex * ex + ey * ey;
        const k = ty * ex - tx * ey;
        const s = ex * ux + ey * uy;
        const factor = weight / (q * q);
        const fs = factor * s;
        const fk = factor * k;
        const fks = fk * s;
        const turn = (-4 * fks) / q;
        // k e u^T + s e (t'_y, -t'_x) + k s (1 - 4 e e^T / q)
        const rowX = fk * ux + fs * ty + turn * ex;
        const rowY = fk * uy - fs * tx + turn * ey;
        const xx = ex * rowX + fks;
        const xy = ex * rowY;
        const yx = ey * rowX;
        const yy = ey * rowY + fks;
        out[at]! -= side * xx;
        out[at + 1]! -= xy;
        out[below]! -= side * yx;
        out[below + 1]! -= yy;
        ownXX += xx;
        ownXY += xy;
        ownYX += yx;
        ownYY += yy;
        // s e (-e_y, e_x)
        out[at + 2]! += fs * ex * ey;
        out[at + 3]! -= side * fs * ex * ex;
        out[below + 2]! += fs * ey * ey;
        out[below + 3]! -= side * fs * ey * ex;
      }
    }
    out[top + 4 * i]! += ownXX;
    out[top + 4 * i + 1]! += ownXY;
    out[bottom + 4 * i]! += ownYX;
    out[bottom + 4 * i + 1]! += ownYY;
  }
  subtractInnerRates(edge, phi, rates);
}

/** Of the inner-point term `(t - z0) I`, `I = (1/N) sum Im(phi r^2 t')`, `r = 1/(t - z0)`: `w I + (t - z0) (1/N) sum Im(phi r^2 w' - 2 phi r^3 t' w)`. */
function subtractInnerRates(
  { nodes: { count, x, y, dx, dy }, fold, inner }: LocalEdge,
  phi: Float64Array,
  { values: out, columns: stride }: DenseMatrix,
): void {
  const rows = solvedNodes(fold, count);
  const middleX = fold === 'half' ? 0 : inner.x;
  let integral = 0;
  for (let m = 0; m < rows; m++) {
    let byX = 0;
    let byY = 0;
    let byDx = 0;
    let byDy = 0;
    for (let side = fold === 'whole' ? 1 : -1; side <= 1; side += 2) {
      const weight = (side === 1 ? 1 : imageSign(fold)) / count;
      const ex = x[m]! - side * inner.x;
      const ey = y[m]! - inner.y;
      const inverse = 1 / (ex * ex + ey * ey);
      const rx = ex * inverse;
      const ry = -ey * inverse;
      // phi r^2
      const squareX = rx * rx - ry * ry;
      const squareY = 2 * rx * ry;
      const gx = weight * (phi[2 * m]! * squareX - phi[2 * m + 1]! * squareY);
      const gy = weight * (phi[2 * m]! * squareY + phi[2 * m + 1]! * squareX);
      integral += gx * dy[m]! + gy * dx[m]!;
      byDx += gy;
      byDy += gx;
      // -2 phi r^3 t'
      const hx = gx * rx - gy * ry;
      const hy = gx * ry + gy * rx;
      byX -= 2 * (hx * dy[m]! + hy * dx[m]!);
      byY -= 2 * (hx * dx[m]! - hy * dy[m]!);
    }
    for (let i = 0; i < rows; i++) {
      const ex = x[i]! - middleX;
      const ey = y[i]! - inner.y;
      const at = 2 * i * stride + 4 * m;
      const below = at + stride;
      out[at]! -= ex * byX;
      out[at + 1]! -= ex * byY;
      out[at + 2]! -= ex * byDx;
      out[at + 3]! -= ex * byDy;
      out[below]! -= ey * byX;
      out[below + 1]! -= ey * byY;
      out[below + 2]! -= ey * byDx;
      out[below + 3]! -= ey * byDy;
    }
  }
  for (let i = 0; i < rows; i++) {
    out[2 * i * stride + 4 * i]! -= integral;
    out[(2 * i + 1) * stride + 4 * i + 1]! -= integral;
  }
}
