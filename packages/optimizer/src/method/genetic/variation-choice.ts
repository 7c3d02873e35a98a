import type { Random } from '../../random.js';

/** Weight of a batch in the running success rates. */
const learning = 0.1;
/** Least chance of a variation, relative to the best one's: what fails now may be needed later. */
const floor = 0.2;

/**
 * Draws variations in proportion to how often their children survived lately (probability matching: Thierens, GECCO 2005,
 * 1539-1546).
 */
export class VariationChoice {
  readonly #rates: number[];

  constructor(rates: readonly number[]) {
    this.#rates = [...rates];
  }

  draw(random: Random): number {
    const least = floor * (Math.max(...this.#rates) || 1);
    const weights = this.#rates.map((rate) => Math.max(rate, least));
    let left = random.uniform() * weights.reduce((sum, weight) => sum + weight, 0);
    for (let choice = 0; choice < weights.length - 1; choice++) {
      left -= weights[choice]!;
      if (left < 0) return choice;
    }
    return weights.length - 1;
  }

  /** `made` and `survived` count the children of each variation in a batch. */
  learn(made: readonly number[], survived: readonly number[]): void {
    made.forEach((count, choice) => {
      if (count > 0) this.#rates[choice]! += learning * (survived[choice]! / count - this.#rates[choice]!);
    });
  }
}
