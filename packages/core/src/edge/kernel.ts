import type { CurveNodes } from '../outline/nodes.js';

/** A point well inside an outline, which removes the hydrostatic null vector of the edge equation. */
export interface InnerPoint {
  x: number;
  y: number;
}

/**
 * Writes the matrix of the traction-free edge, `I + K` of mechanics 3 without its inner-point term, row-major, order
 * `2 count`, unknowns `(Re phi, Im phi)` node by node (Muskhelishvili's equation; its discretisation by the trapezoidal
 * rule follows Greengard, Kropinski & Mayo, J. Comput. Phys. 125 (1996) 403-414).
 *
 * With `mirror`, only the first half of the nodes keeps rows and columns: node `count - 1 - j` carries `-conj phi_j`.
 */
export function writeEdgeMatrix(nodes: CurveNodes, mirror: boolean, matrix: Float64Array): void {
  const { count, x, y, dx, dy, ddx, ddy } = nodes;
  const rows = mirror ? count / 2 : count;
  const order = 2 * rows;
  const h = (2 * Math.PI) / count;
  const weight = (2 * h) / Math.PI;
  for (let i = 0; i < rows; i++) {
    const top = 2 * i * order;
    const bottom = top + order;
    const px = x[i]!;
    const py = y[i]!;
    for (let j = 0; j < rows; j++) {
      if (j === i) {
        writeDiagonal(dx[i]!, dy[i]!, ddx[i]!, ddy[i]!, h, matrix, top + 2 * i, bottom + 2 * i);
      } else {
        const ex = x[j]! - px;
        const ey = y[j]! - py;
        const squared = ex * ex + ey * ey;
        const factor = (weight * (dy[j]! * ex - dx[j]! * ey)) / (squared * squared);
        const mixed = factor * ex * ey;
        matrix[top + 2 * j] = factor * ex * ex;
        matrix[top + 2 * j + 1] = mixed;
        matrix[bottom + 2 * j] = mixed;
        matrix[bottom + 2 * j + 1] = factor * ey * ey;
      }
      if (mirror) {
        // Image of node j: (-x, y), derivative (dx, -dy), value (-Re phi, Im phi).
        const ex = -x[j]! - px;
        const ey = y[j]! - py;
        const squared = ex * ex + ey * ey;
        const factor = (weight * (-dy[j]! * ex - dx[j]! * ey)) / (squared * squared);
        const mixed = factor * ex * ey;
        matrix[top + 2 * j]! -= factor * ex * ex;
        matrix[top + 2 * j + 1]! += mixed;
        matrix[bottom + 2 * j]! -= mixed;
        matrix[bottom + 2 * j + 1]! += factor * ey * ey;
      }
    }
  }
}

/** The limit of the kernel at its own node: `I + h K1 [[1 + Re e, Im e], [Im e, 1 - Re e]]`, `e = t'^2 / |t'|^2`. */
function writeDiagonal(
  dx: number,
  dy: number,
  ddx: number,
  ddy: number,
  h: number,
  matrix: Float64Array,
  top: number,
  bottom: number,
): void {
  const speed2 = dx * dx + dy * dy;
  const kernel = (h * (dx * ddy - dy * ddx)) / (2 * Math.PI * speed2);
  const re = (dx * dx - dy * dy) / speed2;
  const im = (2 * dx * dy) / speed2;
  matrix[top] = 1 + kernel * (1 + re);
  matrix[top + 1] = kernel * im;
  matrix[bottom] = kernel * im;
  matrix[bottom + 1] = 1 + kernel * (1 - re);
}

/**
 * Adds the inner-point term `(t - z0) Re[(1/2 pi i) oint phi dt / (t - z0)^2]`. `functional` is scratch of the matrix's order.
 */
export function addInnerPointTerm(
  nodes: CurveNodes,
  mirror: boolean,
  inner: InnerPoint,
  functional: Float64Array,
  matrix: Float64Array,
): void {
  const { count, x, y, dx, dy } = nodes;
  const rows = mirror ? count / 2 : count;
  const order = 2 * rows;
  // A mirror pair contributes twice the same real part.
  const weight = (mirror ? 2 : 1) / count;
  for (let j = 0; j < rows; j++) {
    const ex = x[j]! - inner.x;
    const ey = y[j]! - inner.y;
    const re = ex * ex - ey * ey;
    const im = 2 * ex * ey;
    const squared = re * re + im * im;
    // g = t' / (t - z0)^2; Re[(1/i) phi g] = Re phi Im g + Im phi Re g.
    const gRe = (dx[j]! * re + dy[j]! * im) / squared;
    const gIm = (dy[j]! * re - dx[j]! * im) / squared;
    functional[2 * j] = weight * gIm;
    functional[2 * j + 1] = weight * gRe;
  }
  for (let i = 0; i < rows; i++) {
    const ex = x[i]! - inner.x;
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
