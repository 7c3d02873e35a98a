import type { CurveNodes } from '../outline/index.js';
import { type EdgeFold, imageSign, isPair, solvedNodes } from './fold.js';
import type { InnerPoint } from './inner-point.js';

/**
 * Writes the matrix of the traction-free edge, `I + K` of mechanics 3 without its inner-point term, row-major, order
 * `2 count`, unknowns `(Re phi, Im phi)` node by node (Muskhelishvili's equation; its discretisation by the trapezoidal
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
export function writeEdgeMatrix(nodes: CurveNodes, fold: EdgeFold, matrix: Float64Array): void {
  const { count, x, y, dx, dy } = nodes;
  const rows = solvedNodes(fold, count);
  const sign = imageSign(fold);
  const apart = isPair(fold);
  const order = 2 * rows;
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
 * Adds the inner-point term `(t - z0) Re[(1/2 pi i) oint phi dt / (t - z0)^2]`, the integral over all edges. Of a `half` it is the mean of those about
 * the point and about its mirror image, which agree for mirror-symmetric phi, and the factor is `t - i Im z0`. `functional` is scratch of the
 * matrix's order.
 */
export function addInnerPointTerm(
  nodes: CurveNodes,
  fold: EdgeFold,
  inner: InnerPoint,
  functional: Float64Array,
  matrix: Float64Array,
): void {
  const { count, x, y, dx, dy } = nodes;
  const rows = solvedNodes(fold, count);
  const order = 2 * rows;
  const middleX = fold === 'half' ? 0 : inner.x;
  functional.fill(0);
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
      functional[2 * j]! += weight * ((dy[j]! * re - dx[j]! * im) / squared);
      functional[2 * j + 1]! += weight * ((dx[j]! * re + dy[j]! * im) / squared);
    }
  }
  for (let i = 0; i < rows; i++) {
    const ex = x[i]! - middleX;
    const ey = y[i]! - inner.y;
    const top = 2 * i * order;
    const bottom = top + order;
    for (let c = 0; c < order; c++) {
      const value = functional[c]!;
      matrix[top + c]! += ex * value;
      matrix[bottom + c]! += ey * value;
    }
  }
}
