import type { CurveNodes } from '../outline/index.js';
import { type EdgeFold, imageSign, isHalf, isPair, solvedNodes } from './fold.js';
import type { InnerPoint } from './inner-point.js';
import type { LocalEdge } from './local-nodes.js';

/**
 * Writes the matrix of a traction-free edge, `I + K` of mechanics 3 without its inner-point term, row-major, order
 * `2 count` (where it is a block of a larger one, `order` is that one's), unknowns `(Re phi, Im phi)` node by node (Muskhelishvili's equation; its discretisation by the trapezoidal
 * rule follows Greengard, Kropinski & Mayo, J. Comput. Phys. 125 (1996) 403-414).
 *
 * A node's own block is not the kernel's limit there, `h K1 [[1 + Re e, Im e], [Im e, 1 - Re e]]`, but what makes the rule exact
 * for a translation (`K c = c`): the integrand then holds `phi(t) - phi(t0)`. On smooth outlines both converge alike; on a
 * cubic spline the limit is of second order and this of fourth; where the curvature jumps (a straight that meets an arc), the limit left 20 %
 * in the hoop stress of a node beside the jump.
 *
 * Folded, only the nodes that are solved for keep rows and columns: of `half` the first half, node `count - 1 - j` carries `-conj phi_j`. The
 * other edge of a pair adds its kernel; a translation is one of each edge by itself, so that it is not in the sums of a node's own block.
 */
export function writeEdgeMatrix(
  nodes: CurveNodes,
  fold: EdgeFold,
  matrix: Float64Array,
  order = 2 * solvedNodes(fold, nodes.count),
): void {
  const { count, x, y, dx, dy } = nodes;
  const rows = solvedNodes(fold, count);
  const sign = imageSign(fold);
  const apart = isPair(fold);
  const weight = 4 / count;
  for (let i = 0; i < rows; i++) {
    const top = 2 * i * order;
    const bottom = top + order;
    const px = x[i]!;
    const py = y[i]!;
    // What the other nodes do to a translation.
    let sumXX = 0;
    let sumXY = 0;
    let sumYY = 0;
    for (let j = 0; j < rows; j++) {
      if (j !== i) {
        const ex = x[j]! - px;
        const ey = y[j]! - py;
        const squared = ex * ex + ey * ey;
        const factor = (weight * (dy[j]! * ex - dx[j]! * ey)) / (squared * squared);
        const xx = factor * ex * ex;
        const xy = factor * ex * ey;
        const yy = factor * ey * ey;
        matrix[top + 2 * j] = xx;
        matrix[top + 2 * j + 1] = xy;
        matrix[bottom + 2 * j] = xy;
        matrix[bottom + 2 * j + 1] = yy;
        sumXX += xx;
        sumXY += xy;
        sumYY += yy;
      } else {
        matrix[top + 2 * i] = 0;
        matrix[top + 2 * i + 1] = 0;
        matrix[bottom + 2 * i] = 0;
        matrix[bottom + 2 * i + 1] = 0;
      }
      if (sign !== 0) {
        // Image of node j: (-x, y), derivative (dx, -dy), value (-Re phi, Im phi) times the sign.
        const ex = -x[j]! - px;
        const ey = y[j]! - py;
        const squared = ex * ex + ey * ey;
        const factor = (weight * (-dy[j]! * ex - dx[j]! * ey)) / (squared * squared);
        const xx = factor * ex * ex;
        const xy = factor * ex * ey;
        const yy = factor * ey * ey;
        matrix[top + 2 * j]! -= sign * xx;
        matrix[top + 2 * j + 1]! += sign * xy;
        matrix[bottom + 2 * j]! -= sign * xy;
        matrix[bottom + 2 * j + 1]! += sign * yy;
        if (apart) continue;
        sumXX += xx;
        sumXY += xy;
        sumYY += yy;
      }
    }
    matrix[top + 2 * i]! += 2 - sumXX;
    matrix[top + 2 * i + 1]! -= sumXY;
    matrix[bottom + 2 * i]! -= sumXY;
    matrix[bottom + 2 * i + 1]! += 2 - sumYY;
  }
}

/**
 * Writes what an edge adds to the rows of another one that is solved with it: the kernel from its nodes, and from its image. `matrix` begins at the block, a row
 * has the length `order`.
 */
export function writeOtherEdge(to: LocalEdge, from: LocalEdge, matrix: Float64Array, order: number): void {
  const { count, x, y, dx, dy } = from.nodes;
  const rows = solvedNodes(to.fold, to.nodes.count);
  const columns = solvedNodes(from.fold, count);
  const sign = imageSign(from.fold);
  const weight = 4 / count;
  for (let i = 0; i < rows; i++) {
    const top = 2 * i * order;
    const bottom = top + order;
    const px = to.nodes.x[i]!;
    const py = to.nodes.y[i]!;
    for (let j = 0; j < columns; j++) {
      const ey = y[j]! - py;
      let xx = 0;
      let xy = 0;
      let yx = 0;
      let yy = 0;
      for (let side = sign === 0 ? 1 : -1; side <= 1; side += 2) {
        const ex = side * x[j]! - px;
        const squared = ex * ex + ey * ey;
        const factor = (weight * (side * dy[j]! * ex - dx[j]! * ey)) / (squared * squared);
        const [re, im] = side === 1 ? [factor, factor] : [-sign * factor, sign * factor];
        xx += re * ex * ex;
        xy += im * ex * ey;
        yx += re * ex * ey;
        yy += im * ey * ey;
      }
      matrix[top + 2 * j] = xx;
      matrix[top + 2 * j + 1] = xy;
      matrix[bottom + 2 * j] = yx;
      matrix[bottom + 2 * j + 1] = yy;
    }
  }
}

/**
 * Adds the inner-point term of edge `k` of those that are solved together, `(t - z0) Re[(1/2 pi i) oint phi dt / (t - z0)^2]`, the integral over all edges (over its own alone, two circles
 * 1.2 diameters apart are off by 16 %). Of a `half` it is the mean of those about
 * the point and about its mirror image, which agree for mirror-symmetric phi, and the factor is `t - i Im z0`; antisymmetric phi have no hydrostatic part there. `functional` is scratch of the
 * matrix's order.
 */
export function addInnerPointTerm(
  edges: readonly LocalEdge[],
  k: number,
  functional: Float64Array,
  matrix: Float64Array,
): void {
  const { nodes, fold, inner } = edges[k]!;
  if (fold === 'odd-half') return;
  functional.fill(0);
  let order = 0;
  let before = 0;
  edges.forEach((edge, m) => {
    if (m === k) before = order;
    addFunctional(edge, inner, functional, order);
    order += 2 * solvedNodes(edge.fold, edge.nodes.count);
  });
  const middleX = isHalf(fold) ? 0 : inner.x;
  const rows = solvedNodes(fold, nodes.count);
  for (let i = 0; i < rows; i++) {
    const ex = nodes.x[i]! - middleX;
    const ey = nodes.y[i]! - inner.y;
    const top = (before + 2 * i) * order;
    const bottom = top + order;
    for (let c = 0; c < order; c++) {
      const value = functional[c]!;
      matrix[top + c]! += ex * value;
      matrix[bottom + c]! += ey * value;
    }
  }
}

/** Adds what the integral about a point takes from an edge, from place `at` on. */
function addFunctional({ nodes, fold }: LocalEdge, inner: InnerPoint, functional: Float64Array, at: number): void {
  const { count, x, y, dx, dy } = nodes;
  const rows = solvedNodes(fold, count);
  // The image of a node sees the point as the node sees the point's image: what a mirror pair contributes.
  for (let side = fold === 'whole' ? 1 : -1; side <= 1; side += 2) {
    const weight = (side === 1 ? 1 : imageSign(fold)) / count;
    for (let j = 0; j < rows; j++) {
      const ex = x[j]! - side * inner.x;
      const ey = y[j]! - inner.y;
      const re = ex * ex - ey * ey;
      const im = 2 * ex * ey;
      const squared = re * re + im * im;
      // g = t' / (t - z0)^2; Re[(1/i) phi g] = Re phi Im g + Im phi Re g.
      functional[at + 2 * j]! += weight * ((dy[j]! * re - dx[j]! * im) / squared);
      functional[at + 2 * j + 1]! += weight * ((dx[j]! * re + dy[j]! * im) / squared);
    }
  }
}
