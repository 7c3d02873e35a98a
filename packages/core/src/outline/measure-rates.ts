import type { Border } from './family.js';
import type { NodeRates } from './node-rates.js';
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
