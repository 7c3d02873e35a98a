import { ranks } from '../../front/index.js';
import type { Solution } from '../../problem.js';
import type { Random } from '../../random.js';

/** How often mates come from the parent's neighbourhood, and how large that is. */
const nearby = 0.5;
const neighbourhood = 20;

/**
 * Who begets with whom. Parents win a tournament of two by rank. Mates win one too, or, every other time, are drawn among the
 * parent's neighbours in objective space: along a front neighbours are alike, and their differences are steps of the right size
 * (Li & Zhang, IEEE Trans. Evol. Comput. 13 (2009) 284-302).
 */
export class Mating {
  readonly #population: readonly Solution[];
  readonly #random: Random;
  readonly #rank: Int32Array;
  readonly #ranges: readonly number[];
  readonly #neighbours = new Map<number, readonly number[]>();

  constructor(population: readonly Solution[], random: Random) {
    this.#population = population;
    this.#random = random;
    this.#rank = ranks(population);
    this.#ranges = Array.from(population[0]!.objectives, (_, i) => {
      const values = population.map((member) => member.objectives[i]!);
      return Math.max(...values) - Math.min(...values) || 1;
    });
  }

  /** A parent, and where its mates come from. */
  pair(): { readonly parent: Float64Array; readonly mate: () => Float64Array } {
    const parent = this.#winner();
    const near = this.#random.uniform() < nearby ? this.#nearest(parent) : [];
    return {
      parent: this.#population[parent]!.x,
      mate: () => this.#population[near.length > 0 ? near[this.#random.integer(near.length)]! : this.#winner()]!.x,
    };
  }

  #winner(): number {
    const first = this.#random.integer(this.#population.length);
    const second = this.#random.integer(this.#population.length);
    return this.#rank[first]! <= this.#rank[second]! ? first : second;
  }

  #nearest(of: number): readonly number[] {
    let found = this.#neighbours.get(of);
    if (found === undefined) {
      const centre = this.#population[of]!.objectives;
      const distance = this.#population.map(({ objectives }) =>
        objectives.reduce((sum, value, i) => sum + ((value - centre[i]!) / this.#ranges[i]!) ** 2, 0),
      );
      const others = this.#population.map((_, index) => index).filter((index) => index !== of);
      found = others.sort((a, b) => distance[a]! - distance[b]! || a - b).slice(0, neighbourhood);
      this.#neighbours.set(of, found);
    }
    return found;
  }
}
