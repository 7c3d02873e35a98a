import { power } from '@lumenfront/core';
import { mutate } from './polynomial-mutation.js';
import { type Variation, within } from './variation.js';

/** Distribution index: the larger, the nearer are children to their parents. */
const index = 15;

/**
 * Simulated binary crossover (Deb & Agrawal, Complex Syst. 9 (1995) 115-148) with the spread cut off at the bound, in about half
 * of the variables, then polynomial mutation. One of the two children, drawn for each variable.
 */
export const binaryCrossover: Variation = {
  name: 'binary crossover',
  child(parent, mate, bounds, random) {
    const other = mate();
    const child = Float64Array.from(parent);
    for (let i = 0; i < child.length; i++) {
      const low = Math.min(parent[i]!, other[i]!);
      const gap = Math.abs(parent[i]! - other[i]!);
      if (random.uniform() < 0.5 || !(gap > 0)) continue;
      const down = random.uniform() < 0.5;
      const room = down ? low - bounds.lower[i]! : bounds.upper[i]! - low - gap;
      const alpha = 2 - power(1 + (2 * room) / gap, -(index + 1));
      const u = random.uniform() * alpha;
      const spread = power(u <= 1 ? u : 1 / (2 - u), 1 / (index + 1));
      child[i] = within(bounds, i, low + (gap + (down ? -spread : spread) * gap) / 2);
    }
    mutate(child, bounds, random);
    return child;
  },
};
