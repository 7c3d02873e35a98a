import type { RefineRequest } from './refine.js';
import { type Refined, type RefinePlan, refinedOf } from './refined.js';

/** Refinements of one front: what was asked for, as far as its budget goes, and all that was found. */
export class Refinements {
  readonly found: Refined[];
  readonly #plan: RefinePlan;

  constructor(plan: RefinePlan, found: readonly Refined[] = []) {
    this.#plan = plan;
    this.found = [...found];
  }

  /** Evaluations that are left. */
  left(): number {
    return this.#plan.left();
  }

  goOn(): boolean {
    return this.#plan.goOn();
  }

  /**
   * What each request came to; fewer where the budget ends, but for `spare`, or the search is stopped. All at once as far as what they may cost at most goes, the others with what those
   * have not spent.
   */
  async ask(requests: readonly RefineRequest[], spare = 0): Promise<readonly Refined[][]> {
    const answers: Refined[][] = [];
    while (answers.length < requests.length && this.goOn()) {
      let left = this.left() - spare;
      const waiting = requests.slice(answers.length);
      const end = waiting.findIndex(({ most }) => {
        left -= most;
        return left < 0;
      });
      if (end === 0) break;
      for (const result of await this.#plan.refine(end < 0 ? waiting : waiting.slice(0, end))) {
        this.#plan.note(result);
        const reached = refinedOf(result);
        this.found.push(...reached);
        answers.push(reached);
      }
    }
    return answers;
  }
}
