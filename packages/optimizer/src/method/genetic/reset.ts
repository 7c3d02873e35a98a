import { type Variation, within } from './variation.js';

/**
 * One variable anew, anywhere within its bounds (uniform mutation: Michalewicz, Genetic Algorithms + Data Structures = Evolution
 * Programs, 1992), and in half of the children another one from a mate: brings back what the population has lost.
 */
export const reset: Variation = {
  name: 'reset',
  child(parent, mate, bounds, random) {
    const child = Float64Array.from(parent);
    const i = random.integer(child.length);
    child[i] = within(bounds, i, bounds.lower[i]! + random.uniform() * (bounds.upper[i]! - bounds.lower[i]!));
    if (random.uniform() < 0.5) {
      const other = random.integer(child.length);
      child[other] = mate()[other]!;
    }
    return child;
  },
};
