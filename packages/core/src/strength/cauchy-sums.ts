import type { RegularBasis } from '../edge/index.js';
import type { CurveNodes } from '../outline/index.js';
import { type LocalEdge, valuesPerLoad } from './boundary-values.js';

/** An edge as a field takes it. */
export interface FieldEdge {
  readonly nodes: CurveNodes;
  readonly slopes: readonly Float64Array[];
  readonly inner: { readonly x: number; readonly y: number };
  /** It has no image but itself. */
  readonly onAxis: boolean;
}

/** Cauchy's sums of boundary values over an edge, and those of 1. */
export interface CauchySums {
  readonly sums: Float64Array;
  lowerX: number;
  lowerY: number;
}

/** An edge with its values, node by node and load by load. */
export interface TakenEdge extends LocalEdge {
  /** `t' h / (t - inner)`. */
  readonly innerWeights: Float64Array;
  readonly values: Float64Array;
  /** `t' h / (t - z)` at the place that was looked at last. */
  readonly kernel: Float64Array;
  innerX: number;
  innerY: number;
  /** There is another edge, its mirror image. */
  hasImage: boolean;
}

export const createCauchySums = (stride: number): CauchySums => ({
  sums: new Float64Array(stride),
  lowerX: 0,
  lowerY: 0,
});

export const createTakenEdge = (count: number, stride: number): TakenEdge => ({
  ...{ places: new Float64Array(2 * count), weights: new Float64Array(2 * count) },
  innerWeights: new Float64Array(2 * count),
  values: new Float64Array(stride * count),
  kernel: new Float64Array(2 * count),
  ...{ innerX: 0, innerY: 0, hasImage: false },
});

/** Takes places and directions of an edge. */
export function takePlaces(edge: TakenEdge, basis: RegularBasis, { nodes, inner }: FieldEdge): void {
  const { places, weights, innerWeights } = edge;
  const { length } = basis;
  edge.innerX = (inner.x - basis.centreX) / length;
  edge.innerY = (inner.y - basis.centreY) / length;
  for (let j = 0; j < nodes.count; j++) {
    const re = 2 * j;
    const im = re + 1;
    const x = (nodes.x[j]! - basis.centreX) / length;
    const y = (nodes.y[j]! - basis.centreY) / length;
    const dx = nodes.dx[j]! / length;
    const dy = nodes.dy[j]! / length;
    places[re] = x;
    places[im] = y;
    weights[re] = dx;
    weights[im] = dy;
    const ex = x - edge.innerX;
    const ey = y - edge.innerY;
    const distance2 = ex * ex + ey * ey;
    innerWeights[re] = (dx * ex + dy * ey) / distance2;
    innerWeights[im] = (dy * ex - dx * ey) / distance2;
  }
}

/** Sums over an edge at a local place. */
export function addUp(edge: TakenEdge, px: number, py: number, out: CauchySums): void {
  const { places, weights, innerWeights, kernel, innerX, innerY } = edge;
  let belowX = 0;
  let belowY = 0;
  for (let j = 0; j < places.length; j += 2) {
    const ex = places[j]! - px;
    const ey = places[j + 1]! - py;
    const inverse = 1 / (ex * ex + ey * ey);
    const gx = ex * inverse;
    const gy = -ey * inverse;
    kernel[j] = weights[j]! * gx - weights[j + 1]! * gy;
    kernel[j + 1] = weights[j]! * gy + weights[j + 1]! * gx;
    belowX += innerWeights[j]! * gx - innerWeights[j + 1]! * gy;
    belowY += innerWeights[j]! * gy + innerWeights[j + 1]! * gx;
  }
  for (let first = 0; first < out.sums.length; first += valuesPerLoad) addLoad(edge, first, out.sums);
  // The quotient's lower part: (z - inner) sum t' h / ((t - inner)(t - z)).
  const fromX = px - innerX;
  const fromY = py - innerY;
  out.lowerX = fromX * belowX - fromY * belowY;
  out.lowerY = fromX * belowY + fromY * belowX;
}

/** The sums of one load's values, by themselves: sums of all loads at once would have to be stored at every node. */
function addLoad({ kernel, values }: TakenEdge, first: number, sums: Float64Array): void {
  const stride = sums.length;
  let slopeX = 0;
  let slopeY = 0;
  let bendX = 0;
  let bendY = 0;
  let psiX = 0;
  let psiY = 0;
  for (let j = 0, at = first; j < kernel.length; j += 2, at += stride) {
    const wx = kernel[j]!;
    const wy = kernel[j + 1]!;
    slopeX += values[at]! * wx - values[at + 1]! * wy;
    slopeY += values[at]! * wy + values[at + 1]! * wx;
    bendX += values[at + 2]! * wx - values[at + 3]! * wy;
    bendY += values[at + 2]! * wy + values[at + 3]! * wx;
    psiX += values[at + 4]! * wx - values[at + 5]! * wy;
    psiY += values[at + 4]! * wy + values[at + 5]! * wx;
  }
  sums[first] = slopeX;
  sums[first + 1] = slopeY;
  sums[first + 2] = bendX;
  sums[first + 3] = bendY;
  sums[first + 4] = psiX;
  sums[first + 5] = psiY;
}

/** The lower part of each edge of `count` nodes is `-i count` but near it, so that the product of all over that serves near each. */
function multiplyLower(all: CauchySums, lowerX: number, lowerY: number, count: number): void {
  const x = lowerX * all.lowerX - lowerY * all.lowerY;
  const y = lowerX * all.lowerY + lowerY * all.lowerX;
  all.lowerX = -y / count;
  all.lowerY = x / count;
}

/** Adds the sums of another edge of `count` nodes to those of all. */
export function addOther(all: CauchySums, other: CauchySums, count: number): void {
  for (let i = 0; i < all.sums.length; i++) all.sums[i]! += other.sums[i]!;
  multiplyLower(all, other.lowerX, other.lowerY, count);
}

/** Adds the image of an edge, whose sums are `-+ conj` of those of the edge at the image of the place. */
export function addImage(all: CauchySums, other: CauchySums, images: readonly (1 | -1)[], count: number): void {
  for (let i = 0; i < all.sums.length; i += 2) {
    // Phi and Psi of a symmetric load are conjugate at images, Phi' has the other sign.
    const sign = images[Math.floor(i / valuesPerLoad)]! * (i % valuesPerLoad === 2 ? -1 : 1);
    all.sums[i]! -= sign * other.sums[i]!;
    all.sums[i + 1]! += sign * other.sums[i + 1]!;
  }
  multiplyLower(all, -other.lowerX, other.lowerY, count);
}
