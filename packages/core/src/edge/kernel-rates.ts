import type { DenseMatrix } from '../linear/index.js';
import { imageSign, isHalf, isPair, solvedNodes } from './fold.js';
import type { LocalEdge } from './local-nodes.js';

/**
 * Writes what the motion of edges does to their matrix times given boundary values (an array to an edge), with the sign of the right side: `out v = -(A phi)'`, `A` of `writeEdgeMatrix`,
 * `writeOtherEdge` and the inner-point terms, the points held still. Two rows of `rates` a node; columns are the velocities of
 * the (solved) nodes and of their first derivatives, `(x, y, dx, dy)` node by node. It is the derivative of the discrete sums
 * (derived here), so it is exact for the stress that is computed, resolved or not.
 */
export function writeEdgeRates(edges: readonly LocalEdge[], phi: readonly Float64Array[], rates: DenseMatrix): void {
  const { values, columns } = rates;
  let before = 0;
  edges.forEach((edge, k) => {
    writeOwnRates(edge, phi[k]!, values.subarray(2 * before * (columns + 2)), columns);
    before += solvedNodes(edge.fold, edge.nodes.count);
  });
  let row = 0;
  edges.forEach((to, k) => {
    let column = 0;
    edges.forEach((from, m) => {
      if (m !== k) writeOtherRates([to, row], [from, column], phi[m]!, rates);
      column += solvedNodes(from.fold, from.nodes.count);
    });
    row += solvedNodes(to.fold, to.nodes.count);
  });
  for (const k of edges.keys()) subtractInnerRates(edges, k, phi, rates);
}

function writeOwnRates(edge: LocalEdge, phi: Float64Array, out: Float64Array, stride: number): void {
  const { fold } = edge;
  const { count, x, y, dx, dy } = edge.nodes;
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
}

/** An edge and the solved nodes of those before it. */
type Placed = readonly [edge: LocalEdge, before: number];

/** What the motion of both does to what one edge sees of another. */
function writeOtherRates(
  [to, row]: Placed,
  [from, column]: Placed,
  phi: Float64Array,
  { values: out, columns: stride }: DenseMatrix,
): void {
  const { count, x, y, dx, dy } = from.nodes;
  const seeing = solvedNodes(to.fold, to.nodes.count);
  const seen = solvedNodes(from.fold, count);
  const sign = imageSign(from.fold);
  const weight = 4 / count;
  for (let i = 0; i < seeing; i++) {
    const top = 2 * (row + i) * stride;
    const ownAt = top + 4 * (row + i);
    const ownBelow = ownAt + stride;
    const px = to.nodes.x[i]!;
    const py = to.nodes.y[i]!;
    for (let m = 0, at = top + 4 * column, below = at + stride; m < seen; m++, at += 4, below += 4) {
      out.fill(0, at, at + 4);
      out.fill(0, below, below + 4);
      for (let side = sign === 0 ? 1 : -1; side <= 1; side += 2) {
        const ex = side * x[m]! - px;
        const ey = y[m]! - py;
        const ux = (side === 1 ? 1 : -sign) * phi[2 * m]!;
        const uy = (side === 1 ? 1 : sign) * phi[2 * m + 1]!;
        const tx = dx[m]!;
        const ty = side * dy[m]!;
        const q = ex * ex + ey * ey;
        const k = ty * ex - tx * ey;
        const s = ex * ux + ey * uy;
        const factor = weight / (q * q);
        const fs = factor * s;
        const fk = factor * k;
        const turn = (-4 * fk * s) / q;
        // As of an edge's own nodes.
        const rowX = fk * ux + fs * ty + turn * ex;
        const rowY = fk * uy - fs * tx + turn * ey;
        const xx = ex * rowX + fk * s;
        const xy = ex * rowY;
        const yx = ey * rowX;
        const yy = ey * rowY + fk * s;
        out[at]! -= side * xx;
        out[at + 1]! -= xy;
        out[below]! -= side * yx;
        out[below + 1]! -= yy;
        out[ownAt]! += xx;
        out[ownAt + 1]! += xy;
        out[ownBelow]! += yx;
        out[ownBelow + 1]! += yy;
        out[at + 2]! += fs * ex * ey;
        out[at + 3]! -= side * fs * ex * ex;
        out[below + 2]! += fs * ey * ey;
        out[below + 3]! -= side * fs * ey * ex;
      }
    }
  }
}

/** Of the inner-point term of edge `k`, `(t - z0) I`, `I = (1/N) sum Im(phi r^2 t')`, `r = 1/(t - z0)`: `w I + (t - z0) (1/N) sum Im(phi r^2 w' - 2 phi r^3 t' w)`. */
function subtractInnerRates(
  edges: readonly LocalEdge[],
  k: number,
  phi: readonly Float64Array[],
  { values: out, columns: stride }: DenseMatrix,
): void {
  const { nodes, fold, inner } = edges[k]!;
  if (fold === 'odd-half') return;
  const rows = solvedNodes(fold, nodes.count);
  const middleX = isHalf(fold) ? 0 : inner.x;
  let first = 0;
  for (let m = 0; m < k; m++) first += solvedNodes(edges[m]!.fold, edges[m]!.nodes.count);
  let integral = 0;
  let column = 0;
  edges.forEach((edge, e) => {
    const seen = solvedNodes(edge.fold, edge.nodes.count);
    for (let m = 0; m < seen; m++, column++) {
      integral = addIntegral(edge, m, phi[e]!, inner, integral);
      const { byX, byY, byDx, byDy } = integralRates;
      for (let i = 0; i < rows; i++) {
        const ex = nodes.x[i]! - middleX;
        const ey = nodes.y[i]! - inner.y;
        const at = 2 * (first + i) * stride + 4 * column;
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
  });
  for (let i = 0; i < rows; i++) {
    const at = 2 * (first + i) * stride + 4 * (first + i);
    out[at]! -= integral;
    out[at + stride + 1]! -= integral;
  }
}

/** By a node's place and its derivative: of the node that was added last. */
const integralRates = { byX: 0, byY: 0, byDx: 0, byDy: 0 };

/** Adds what node `m` of an edge and its image give to the integral about a point. */
function addIntegral(
  { nodes: { count, x, y, dx, dy }, fold }: LocalEdge,
  m: number,
  phi: Float64Array,
  inner: LocalEdge['inner'],
  before: number,
): number {
  let integral = before;
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
  integralRates.byX = byX;
  integralRates.byY = byY;
  integralRates.byDx = byDx;
  integralRates.byDy = byDy;
  return integral;
}
