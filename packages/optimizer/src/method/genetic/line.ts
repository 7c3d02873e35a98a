import { mutate } from './polynomial-mutation.js';
import { type Variation, within } from './variation.js';

/**
 * Line recombination (Muehlenbein & Schlierkamp-Voosen, Evol. Comput. 1 (1993) 25-49) with a normal step: all variables move
 * together on the line through parent and mate, so that it follows fronts on which they are correlated. Then polynomial mutation.
 */
export const line: Variation = {
  name: 'line',
  child(parent, mate, bounds, random) {
    const other = mate();
    const step = random.normal() / 2;
    const child = Float64Array.from(parent, (value, i) => within(bounds, i, value + step * (other[i]! - value)));
    mutate(child, bounds, random);
    return child;
  },
};
