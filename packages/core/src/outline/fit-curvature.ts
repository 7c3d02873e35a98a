import { cube } from '../power.js';
import { type CurvatureOutline, curvatureOutline } from './curvature.js';
import type { CurvatureForm } from './curvature-splines.js';
import { quantiles, smoothedRing, spacingOf } from './density.js';
import type { Curve } from './family.js';
import { type CurveNodes, createCurveNodes } from './nodes.js';

/** What fits another outline: an outline by curvature, and its values. */
export interface CurvatureFit {
  readonly outline: CurvatureOutline;
  readonly values: Float64Array;
  /** Nodes that a peak stress needs, and a descent with so many coefficients. A multiple of 16. */
  readonly nodes: number;
}

/** Nodes of the outline that is fitted, and even steps along it at which it is compared. */
const nodesRead = 512;
const steps = 1024;
/**
 * Weight of curvature, for knots against even spread, for nodes against what thickness asks for: knots crowd at tips, nodes less, or a descent finds
 * what few nodes do not see.
 */
const knotWeight = 2;
const nodeWeight = 0.35;
/** Largest spacing over the thickness where the channel is straight, and nodes to a coefficient, of which fewer hide false gains. */
const thinSpacing = 0.42;
const nodesPerPiece = 2.3;
/** Smoothing of both densities, in edge radii, within these shares of the length. */
const width = 0.8;
const leastWidth = 0.004;
const mostWidth = 0.03;
/** Weight of curvature against angle, in lengths of the outline. */
const bendWeight = 0.003;

/**
 * Fits an outline by curvature with `pieces` coefficients: knots and nodes crowd where the given outline is curved; least squares of the
 * tangent's angle and, weakly, of the curvature; coefficients within `1/edgeRadius`; then closed. Undefined where it does not close. The material between the outline and its
 * mirror images in `x =` each of `lines` is thin as well.
 */
export function fitCurvature(
  curve: Curve,
  pieces: number,
  edgeRadius: number,
  lines: readonly number[] = [],
): CurvatureFit | undefined {
  const { mirror } = curve;
  const nodes = createCurveNodes(nodesRead);
  curve.place(nodes);
  const read = readEvenly(nodes, lines);
  const { form, count } = formOf(read, mirror, pieces, edgeRadius);
  const outline = curvatureOutline(form);
  const bound = edgeRadius > 0 ? 1 / edgeRadius : Number.POSITIVE_INFINITY;
  const { turn, coefficients } = leastSquares(outline, read, bound);
  const values = Float64Array.of(...(mirror ? [0] : [0, 0, (turn * 180) / Math.PI]), read.length, ...coefficients);
  if (!outline.close(values, bound)) return undefined;
  // The middle of its line goes to where that of the given outline is.
  const [wantedX, wantedY] = middleOf(nodes);
  outline.place(values, nodes);
  const [x, y] = middleOf(nodes);
  if (mirror) values[0] = wantedY - y;
  else values.set([wantedX - x, wantedY - y]);
  return { outline, values, nodes: count };
}

/** An outline at the middles of even steps along it, from its bottom on. */
interface EvenReading {
  readonly length: number;
  /** Angle of the tangent, without jumps. */
  readonly angle: Float64Array;
  readonly curvature: Float64Array;
  /** One over the local thickness of channel or material. */
  readonly thinness: Float64Array;
}

function readEvenly(nodes: CurveNodes, lines: readonly number[]): EvenReading {
  const { count, dx, dy, ddx, ddy } = nodes;
  const h = (2 * Math.PI) / count;
  const speed = Float64Array.from({ length: count }, (_, j) => Math.hypot(dx[j]!, dy[j]!));
  const change = speed.map((v, j) => (dx[j]! * ddx[j]! + dy[j]! * ddy[j]!) / v);
  const bend = speed.map((v, j) => (dx[j]! * ddy[j]! - dy[j]! * ddx[j]!) / cube(v));
  // Up to node j from the node before node 0; Hermite's rule of fourth order.
  const along = new Float64Array(count + 1);
  const turned = new Float64Array(count + 1);
  const last = count - 1;
  turned[0] = Math.atan2(dy[last]!, dx[last]!);
  for (let j = 0; j < count; j++) {
    const k = (j + last) % count;
    along[j + 1] = along[j]! + (h / 2) * (speed[k]! + speed[j]!) + ((h * h) / 12) * (change[k]! - change[j]!);
    turned[j + 1] = turned[j]! + Math.atan2(dx[k]! * dy[j]! - dy[k]! * dx[j]!, dx[k]! * dx[j]! + dy[k]! * dy[j]!);
  }
  const length = along[count]!;
  const begin = along[1]! / 2;
  const angle = new Float64Array(steps);
  const curvature = new Float64Array(steps);
  const thinness = new Float64Array(steps);
  const thin = thinnessAt(nodes, lines);
  for (let m = 0, j = 0; m < steps; m++) {
    let at = begin + ((m + 0.5) / steps) * length;
    const round = at >= length ? 2 * Math.PI : 0;
    if (round > 0) at -= length;
    if (at < along[j]!) j = 0;
    while (at > along[j + 1]!) j++;
    const step = along[j + 1]! - along[j]!;
    const t = (at - along[j]!) / step;
    const [a, b] = [bend[(j + last) % count]!, bend[j]!];
    curvature[m] = (1 - t) * a + t * b;
    thinness[m] = (1 - t) * thin[(j + last) % count]! + t * thin[j]!;
    const rise = turned[j + 1]! - turned[j]!;
    angle[m] = turned[j]! + rise * t * t * (3 - 2 * t) + step * t * (1 - t) * ((1 - t) * a - t * b) + round;
  }
  return { length, angle, curvature, thinness };
}

/** One over the thickness at every node, as `nodesNeeded` measures it: `|n d| / |d|^2`, largest of the vectors `d` to other nodes and to images. */
function thinnessAt({ count, x, y, dx, dy }: CurveNodes, lines: readonly number[]): Float64Array {
  const images = [x, ...lines.map((line) => x.map((px) => 2 * line - px))];
  return Float64Array.from({ length: count }, (_, i) => {
    let most = 0;
    for (const imageX of images)
      for (let j = 0; j < count; j++) {
        const ex = imageX[j]! - x[i]!;
        const ey = y[j]! - y[i]!;
        const across = Math.abs(dx[i]! * ey - dy[i]! * ex);
        const squared = ex * ex + ey * ey;
        if (across > most * squared) most = across / squared;
      }
    return most / Math.hypot(dx[i]!, dy[i]!);
  });
}

/**
 * Nodes are as dense as the channel is thin: a thin slot is nearly as soft as the hydrostatic null vector of the edge equation, in every mode in
 * which it can bend, so that few nodes across it are wrong by any amount.
 */
function formOf(
  { length, curvature, thinness }: EvenReading,
  mirror: boolean,
  pieces: number,
  edgeRadius: number,
): { form: CurvatureForm; count: number } {
  const bends = curvature.map(Math.abs);
  const [meanBend, meanThinness] = [meanOf(bends), meanOf(thinness)];
  const share = Math.min(mostWidth, Math.max(leastWidth, (width * edgeRadius) / length));
  const density = (of: (step: number) => number): Float64Array =>
    smoothedRing(
      bends.map((_, m) => of(m)),
      share * steps,
    );
  const knots = density((m) => 1 + (knotWeight * bends[m]!) / meanBend);
  const nodes = density((m) => thinness[m]! / meanThinness + (nodeWeight * bends[m]!) / meanBend);
  const form = {
    mirror,
    knots: quantiles(mirror ? knots.subarray(0, steps / 2) : knots, pieces, 0).slice(1),
    spacing: spacingOf(nodes, mirror),
  };
  const across = (length * meanThinness * (1 + nodeWeight)) / thinSpacing;
  const along = nodesPerPiece * (mirror ? 2 : 1) * pieces;
  return { form, count: 16 * Math.ceil(Math.max(across, along) / 16) };
}

const meanOf = (values: Float64Array): number => values.reduce((a, b) => a + b) / values.length;

/** Angle at the beginning and coefficients; those that pass the bound are held there, and the others found again. */
function leastSquares(
  outline: CurvatureOutline,
  { length, angle, curvature }: EvenReading,
  bound: number,
): { turn: number; coefficients: Float64Array } {
  const { coefficients: n, form } = outline;
  const seen = form.mirror ? steps / 2 : steps;
  const run = form.mirror ? length / 2 : length;
  const order = n + 1;
  const matrix = new Float64Array(order * order);
  const right = new Float64Array(order);
  const value = new Float64Array(n);
  const integral = new Float64Array(n);
  const row = new Float64Array(order);
  const bendScale = bendWeight * length;
  const add = (target: number) => {
    for (let a = 0; a < order; a++) {
      right[a]! += row[a]! * target;
      for (let b = 0; b <= a; b++) matrix[a * order + b]! += row[a]! * row[b]!;
    }
  };
  for (let m = 0; m < seen; m++) {
    outline.basis((m + 0.5) / seen, value, integral);
    row[n] = form.mirror ? 0 : 1;
    for (let k = 0; k < n; k++) row[k] = run * integral[k]!;
    add(angle[m]!);
    row[n] = 0;
    for (let k = 0; k < n; k++) row[k] = bendScale * value[k]!;
    add(bendScale * curvature[m]!);
  }
  const held = new Float64Array(order).fill(Number.NaN);
  if (form.mirror) held[n] = 0;
  for (;;) {
    const found = solvePartly(matrix, right, held);
    const passing = found.findIndex((c, k) => k < n && Number.isNaN(held[k]!) && Math.abs(c) > bound);
    if (passing < 0) return { turn: found[n]!, coefficients: found.slice(0, n) };
    for (let k = 0; k < n; k++)
      if (Number.isNaN(held[k]!) && Math.abs(found[k]!) > bound) held[k] = Math.sign(found[k]!) * bound;
  }
}

/** Solves the normal equations (lower triangle) for the unknowns that are not held. */
function solvePartly(matrix: Float64Array, right: Float64Array, held: Float64Array): Float64Array {
  const order = right.length;
  const factor = new Float64Array(order * order);
  const found = new Float64Array(order);
  const entry = (i: number, j: number) => (i >= j ? matrix[i * order + j]! : matrix[j * order + i]!);
  for (let i = 0; i < order; i++) {
    const free = Number.isNaN(held[i]!);
    let target = free ? right[i]! : held[i]!;
    if (free) for (let j = 0; j < order; j++) if (!Number.isNaN(held[j]!)) target -= entry(i, j) * held[j]!;
    for (let j = 0; j <= i; j++) {
      let sum = i === j ? 1 : 0;
      if (free && Number.isNaN(held[j]!)) sum = entry(i, j);
      else if (i !== j) sum = 0;
      for (let k = 0; k < j; k++) sum -= factor[i * order + k]! * factor[j * order + k]!;
      factor[i * order + j] = i === j ? Math.sqrt(sum) : sum / factor[j * order + j]!;
    }
    for (let k = 0; k < i; k++) target -= factor[i * order + k]! * found[k]!;
    found[i] = target / factor[i * order + i]!;
  }
  for (let i = order - 1; i >= 0; i--) {
    for (let k = i + 1; k < order; k++) found[i]! -= factor[k * order + i]! * found[k]!;
    found[i]! /= factor[i * order + i]!;
  }
  return found;
}

/** Middle of an outline's line. */
function middleOf({ count, x, y, dx, dy }: CurveNodes): [number, number] {
  let [sum, sumX, sumY] = [0, 0, 0];
  for (let j = 0; j < count; j++) {
    const speed = Math.hypot(dx[j]!, dy[j]!);
    sum += speed;
    sumX += speed * x[j]!;
    sumY += speed * y[j]!;
  }
  return [sumX / sum, sumY / sum];
}
