import { trigonometricRule } from '../linear/index.js';
import type { CurvatureOutline } from '../outline/index.js';

/** What slopes tell of outlines nearby: boundary values of phi at the solved nodes, and their rates, one row to a value. */
export interface Sloped {
  readonly outline: CurvatureOutline;
  readonly count: number;
  /** Unknowns of each edge. */
  readonly orders: readonly number[];
  readonly values: Float64Array;
  readonly phi: readonly Float64Array[];
  readonly phiRates: readonly Float64Array[];
}

/** The boundary values that slopes foretell at all nodes, load by load: a solution that begins there has little left to do. */
export function foretell({ count, orders, values, phi, phiRates }: Sloped, at: Float64Array): Float64Array[] {
  return phi.map((here, l) => {
    const rates = phiRates[l]!;
    const near = here.slice();
    let from = 0;
    for (let k = 0; k < values.length; k++) {
      const by = at[k]! - values[k]!;
      orders.forEach((order, m) => {
        const to = 2 * count * m;
        if (by !== 0) for (let i = 0; i < order; i++) near[to + i]! += by * rates[from + i]!;
        from += order;
      });
    }
    // Of a mirror-symmetric edge half is solved for.
    if (orders.length === 1)
      for (let i = orders[0]!; i < 2 * count; i += 2) {
        near[i] = -near[2 * count - 2 - i]!;
        near[i + 1] = near[2 * count - 1 - i]!;
      }
    return near;
  });
}

/** Values at the `count` nodes of each edge, `(re, im)` by turns, interpolated to twice as many: they lie a quarter of a spacing before and behind each. */
export function onTwiceTheNodes(values: Float64Array, count: number): Float64Array {
  const weights = new Float64Array(count);
  trigonometricRule(count).weightsAt(0.25, weights);
  const out = new Float64Array(2 * values.length);
  for (let first = 0; first < values.length; first += 2 * count)
    for (let j = 0; j < count; j++)
      for (let m = 0; m < count; m++) {
        const weight = weights[m]!;
        const behind = first + 2 * ((j + m) % count);
        const before = first + 2 * ((j - m + count) % count);
        const to = 2 * first + 4 * j;
        out[to]! += weight * values[before]!;
        out[to + 1]! += weight * values[before + 1]!;
        out[to + 2]! += weight * values[behind]!;
        out[to + 3]! += weight * values[behind + 1]!;
      }
  return out;
}
