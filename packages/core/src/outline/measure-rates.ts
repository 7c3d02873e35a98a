import type { Border } from './family.js';
import type { CurveRates, NodeRates } from './node-rates.js';
import type { CurveNodes } from './nodes.js';

/** Rates of the area by each of the first `howMany` motions, of the trapezoidal sum of `measureOutline`. mm2 per unit of the motion */
export function areaRates(nodes: CurveNodes, rates: NodeRates, howMany: number, out: Float64Array): void {
  const { count, x, y, dx, dy } = nodes;
  for (let p = 0; p < howMany; p++) {
    let sum = 0;
    for (let j = 0, at = p * count; j < count; j++, at++)
      sum +=
        rates.x[at]! * dy[j]! +
        (x[j]! - x[0]!) * rates.dy[at]! -
        rates.y[at]! * dx[j]! -
        (y[j]! - y[0]!) * rates.dx[at]!;
    out[p] = (sum * Math.PI) / count;
  }
}

/** Rates of the centroid's x, of the sums of `measureOutline`, whose origin is node 0: an outline that a motion opens has another one. mm per unit of the motion */
export function centroidRates(nodes: CurveNodes, rates: NodeRates, howMany: number, out: Float64Array): void {
  const { count, x, y, dx, dy } = nodes;
  let area2 = 0;
  let moment2 = 0;
  for (let j = 0; j < count; j++) {
    const px = x[j]! - x[0]!;
    area2 += px * dy[j]! - (y[j]! - y[0]!) * dx[j]!;
    moment2 += px * px * dy[j]!;
  }
  const arm = moment2 / area2;
  for (let p = 0; p < howMany; p++) {
    const first = p * count;
    const [x0, y0] = [rates.x[first]!, rates.y[first]!];
    let sum = 0;
    for (let j = 0, at = first; j < count; j++, at++) {
      const px = x[j]! - x[0]!;
      const py = y[j]! - y[0]!;
      const [vx, vy] = [rates.x[at]! - x0, rates.y[at]! - y0];
      sum += 2 * px * vx * dy[j]! + px * px * rates.dy[at]!;
      sum -= arm * (vx * dy[j]! + px * rates.dy[at]! - vy * dx[j]! - py * rates.dx[at]!);
    }
    out[p] = x0 + sum / area2;
  }
}

/** Rates of the perimeter, mm per unit of the motion. */
export function perimeterRates(nodes: CurveNodes, rates: NodeRates, howMany: number, out: Float64Array): void {
  const { count, dx, dy } = nodes;
  for (let p = 0; p < howMany; p++) {
    let sum = 0;
    for (let j = 0, at = p * count; j < count; j++, at++)
      sum += (dx[j]! * rates.dx[at]! + dy[j]! * rates.dy[at]!) / Math.sqrt(dx[j]! ** 2 + dy[j]! ** 2);
    out[p] = (sum * 2 * Math.PI) / count;
  }
}

/** Rates of the signed curvature at the first `seen` nodes, one row of `seen` to a motion. 1/mm per unit of the motion */
export function curvatureRates(
  nodes: CurveNodes,
  rates: CurveRates,
  howMany: number,
  seen: number,
  out: Float64Array,
): void {
  const { count, dx, dy, ddx, ddy } = nodes;
  for (let j = 0; j < seen; j++) {
    const [ux, uy, vx, vy] = [dx[j]!, dy[j]!, ddx[j]!, ddy[j]!];
    const speed2 = ux * ux + uy * uy;
    const perCube = 1 / (speed2 * Math.sqrt(speed2));
    const curvature = (ux * vy - uy * vx) * perCube;
    for (let p = 0; p < howMany; p++) {
      const at = p * count + j;
      const turned = rates.dx[at]! * vy + ux * rates.ddy[at]! - rates.dy[at]! * vx - uy * rates.ddx[at]!;
      const stretched = (ux * rates.dx[at]! + uy * rates.dy[at]!) / speed2;
      out[p * seen + j] = turned * perCube - 3 * curvature * stretched;
    }
  }
}

/** Step over which a border's direction is taken, in units of the outline's speed. */
const reach = 1e-6;

/**
 * Rates of the distance from the border at the first `seen` nodes, one row of `seen` to each of the motions that `out` has room for: the velocity along the border's normal. The normal is the
 * gradient of the distance by central differences over a millionth of the outline's speed there, exact to 1e-9 beside straights and arcs. mm per unit of the motion
 */
export function distanceRates(
  nodes: CurveNodes,
  border: Border,
  rates: NodeRates,
  seen: number,
  out: Float64Array,
): void {
  const { count, x, y, dx, dy } = nodes;
  const howMany = out.length / seen;
  for (let j = 0; j < seen; j++) {
    const step = reach * Math.sqrt(dx[j]! ** 2 + dy[j]! ** 2);
    const px = x[j]!;
    const py = y[j]!;
    const nx = (border.distance(px + step, py) - border.distance(px - step, py)) / (2 * step);
    const ny = (border.distance(px, py + step) - border.distance(px, py - step)) / (2 * step);
    for (let p = 0; p < howMany; p++) {
      const at = p * count + j;
      out[p * seen + j] = nx * rates.x[at]! + ny * rates.y[at]!;
    }
  }
}

/** Rates of width (`axis` x) or height (y), of what `measureOutline` gives. mm per unit of the motion */
export function extentRates(
  nodes: CurveNodes,
  rates: CurveRates,
  axis: 'x' | 'y',
  howMany: number,
  out: Float64Array,
): void {
  const [value, slope, bend] = axis === 'x' ? [nodes.x, nodes.dx, nodes.ddx] : [nodes.y, nodes.dy, nodes.ddy];
  const [rate, slopeRate, bendRate] = axis === 'x' ? [rates.x, rates.dx, rates.ddx] : [rates.y, rates.dy, rates.ddy];
  let least = 0;
  let most = 0;
  for (let j = 1; j < nodes.count; j++) {
    if (value[j]! < value[least]!) least = j;
    if (value[j]! > value[most]!) most = j;
  }
  for (let p = 0; p < howMany; p++) {
    out[p] = 0;
    for (const sign of [1, -1]) {
      const j = sign === 1 ? most : least;
      const at = p * nodes.count + j;
      // Of the node, corrected by Newton's step to the top, where it bends the right way: `x - x'^2 / (2 x'')`.
      const step = bend[j]! * sign < 0 ? slope[j]! / bend[j]! : 0;
      out[p]! += sign * (rate[at]! - step * slopeRate[at]! + (step * step * bendRate[at]!) / 2);
    }
  }
}
