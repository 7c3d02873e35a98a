import type { CurveNodes } from '../outline/index.js';

/** The equation of a duct's flow at the nodes of its edge, and the functional that gives the flow; see `createConductance`. */
export interface DuctEquation {
  readonly count: number;
  /** By rows; of order `count`, or of half that for a mirror-symmetric outline. */
  readonly matrix: Float64Array;
  /** The right side, then the density. */
  readonly density: Float64Array;
  readonly weight: Float64Array;
  /** Positions about a point near the middle of the outline: far-away origins cost no digits. mm */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** First derivative of `q` at the nodes. */
  readonly slope: Float64Array;
}

export function createDuctEquation(count: number): DuctEquation {
  const numbers = () => new Float64Array(count);
  return {
    ...{ count, matrix: new Float64Array(count * count), density: numbers(), weight: numbers() },
    ...{ x: numbers(), y: numbers(), slope: numbers() },
  };
}

/** `I + K1` and the functional's weights; each pair of nodes is visited once. */
export function assemble({ count, matrix, weight, x, y, slope }: DuctEquation, { dx, dy, ddx, ddy }: CurveNodes): void {
  const scale = 2 / count;
  for (let i = 0; i < count; i++) {
    const xi = x[i]!;
    const yi = y[i]!;
    const ux = dx[i]!;
    const uy = dy[i]!;
    const si = slope[i]!;
    let wi = weight[i]!;
    matrix[i * count + i] = 1 + (scale * (ux * ddy[i]! - uy * ddx[i]!)) / (2 * (ux * ux + uy * uy));
    for (let j = i + 1; j < count; j++) {
      const ex = x[j]! - xi;
      const ey = y[j]! - yi;
      const vx = dx[j]!;
      const vy = dy[j]!;
      const inverse = 1 / (ex * ex + ey * ey);
      matrix[i * count + j] = scale * (vy * ex - vx * ey) * inverse;
      matrix[j * count + i] = scale * (ux * ey - uy * ex) * inverse;
      // q'_i R_ij - q'_j R_ji belongs to j, its negative to i.
      const share = (si * (vx * ex + vy * ey) + slope[j]! * (ux * ex + uy * ey)) * inverse;
      wi -= share;
      weight[j]! += share;
    }
    weight[i] = wi;
  }
}

/** The same for half the nodes, each row folded onto them: the density of a mirror image is that of the node. */
export function assembleHalf(
  { count, matrix, weight, x, y, slope }: DuctEquation,
  { dx, dy, ddx, ddy }: CurveNodes,
): void {
  const half = count / 2;
  const scale = 2 / count;
  for (let i = 0; i < half; i++) {
    const xi = x[i]!;
    const yi = y[i]!;
    const ux = dx[i]!;
    const uy = dy[i]!;
    const si = slope[i]!;
    let wi = weight[i]!;
    const row = i * half;
    for (let j = 0; j < half; j++) {
      const vx = dx[j]!;
      const vy = dy[j]!;
      const sj = slope[j]!;
      const ey = y[j]! - yi;
      // Mirror image of j: position (-x_j, y_j), derivatives (x'_j, -y'_j), slope -q'_j.
      const ex = -x[j]! - xi;
      const inverse = 1 / (ex * ex + ey * ey);
      let kernel = -(vy * ex + vx * ey) * inverse;
      wi -= (si * (vx * ex - vy * ey) - sj * (ux * ex + uy * ey)) * inverse;
      if (j === i) kernel += (ux * ddy[i]! - uy * ddx[i]!) / (2 * (ux * ux + uy * uy));
      else {
        const fx = x[j]! - xi;
        const inverseNear = 1 / (fx * fx + ey * ey);
        kernel += (vy * fx - vx * ey) * inverseNear;
        wi -= (si * (vx * fx + vy * ey) + sj * (ux * fx + uy * ey)) * inverseNear;
      }
      matrix[row + j] = scale * kernel;
    }
    matrix[row + i]! += 1;
    weight[i] = wi;
  }
}
