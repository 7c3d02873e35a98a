import { power } from '@lumenfront/core';
import type { Bounds } from '../../problem.js';
import type { Random } from '../../random.js';
import { within } from './variation.js';

/** Distribution index: the larger, the shorter the steps. */
const index = 20;

/**
 * Bounded polynomial mutation (Deb & Goyal, Comput. Sci. Inform. 26 (1996) 30-45; bounded as in Deb, Pratap, Agarwal & Meyarivan
 * 2002): every variable with probability 1/n, in place.
 */
export function mutate(x: Float64Array, bounds: Bounds, random: Random): void {
  for (let i = 0; i < x.length; i++) {
    if (random.uniform() * x.length >= 1) continue;
    const lower = bounds.lower[i]!;
    const upper = bounds.upper[i]!;
    const width = upper - lower;
    if (!(width > 0)) continue;
    const u = random.uniform();
    const down = u < 0.5;
    const away = power(1 - (down ? x[i]! - lower : upper - x[i]!) / width, index + 1);
    const step = down
      ? power(2 * u + (1 - 2 * u) * away, 1 / (index + 1)) - 1
      : 1 - power(2 * (1 - u) + (2 * u - 1) * away, 1 / (index + 1));
    x[i] = within(bounds, i, x[i]! + step * width);
  }
}
