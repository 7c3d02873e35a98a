import { type Variation, within } from './variation.js';

const scales = [0.5, 0.8, 1];
const rates = [0.1, 0.5, 0.9, 1];

/**
 * Differential evolution (Storn & Price, J. Glob. Optim. 11 (1997) 341-359), binomial crossover: a difference of two members is
 * added to the parent or to a third one. Scale and rate are drawn for each child, so that no one setting has to suit all
 * problems (Wang, Cai & Zhang, IEEE Trans. Evol. Comput. 15 (2011) 55-66). What leaves the box is put on its border, where optima
 * of constrained problems often lie.
 */
export const differential: Variation = {
  name: 'differential',
  child(parent, mate, bounds, random) {
    const base = random.uniform() < 0.5 ? parent : mate();
    const from = mate();
    const to = mate();
    const scale = scales[random.integer(scales.length)]!;
    const rate = rates[random.integer(rates.length)]!;
    const child = Float64Array.from(parent);
    const always = random.integer(child.length);
    for (let i = 0; i < child.length; i++) {
      if (i !== always && random.uniform() >= rate) continue;
      child[i] = within(bounds, i, base[i]! + scale * (to[i]! - from[i]!));
    }
    return child;
  },
};
