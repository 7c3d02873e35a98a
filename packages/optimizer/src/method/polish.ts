import { Archive, type ArchiveOptions } from '../front/index.js';
import type { Method, Solution, Space } from '../problem.js';
import { type Goal, goalSpace, towards } from './goal.js';
import { NelderMead, type NelderMeadOptions } from './nelder-mead.js';

/** Where one polish starts, and what it is to do. */
export interface PolishStart {
  readonly from: Solution;
  readonly goal: Goal;
}

/** Budget and first steps of every search, and the archive of what they find. */
export interface PolishOptions extends Pick<NelderMeadOptions, 'steps' | 'penalty'> {
  /** Evaluations for each start. */
  readonly evaluations: number;
  readonly archive: ArchiveOptions;
}

interface Search {
  readonly goal: Goal;
  readonly method: NelderMead;
}

/**
 * Improves points of a front, each towards a goal of its own, by as many Nelder-Mead searches side by side: one batch holds the
 * next point of each, so that workers are fed although every search goes step by step. Every point evaluated on the way goes into
 * the archive. The starts' own values are known and are not asked for.
 */
export class Polish implements Method {
  readonly #space: Space;
  readonly #options: PolishOptions;
  readonly #searches: readonly Search[];
  readonly #archive: Archive;
  #nearest: Solution | undefined;
  #evaluations = 0;
  #failures = 0;

  constructor(space: Space, starts: readonly PolishStart[], options: PolishOptions) {
    if (!(options.evaluations >= 1)) {
      throw new RangeError(`polish: expected at least 1 evaluation, received ${options.evaluations}`);
    }
    this.#space = space;
    this.#options = options;
    this.#archive = new Archive(options.archive);
    const { steps, penalty } = options;
    const search = { searches: 1, ...(steps && { steps }), ...(penalty !== undefined && { penalty }) };
    this.#searches = starts.map(({ from, goal }) => {
      this.#note(from);
      const method = new NelderMead(goalSpace(space), from.x, search);
      method.tell([towards(goal, space, from)]);
      return { goal, method };
    });
  }

  get evaluations(): number {
    return this.#evaluations;
  }

  get failures(): number {
    return this.#failures;
  }

  get stop(): string | undefined {
    return this.#searches.some(isRunning(this.#options)) ? undefined : 'polished';
  }

  get leastInfeasible(): Solution | undefined {
    return this.#nearest !== undefined && this.#nearest.violation > 0 ? this.#nearest : undefined;
  }

  front(most?: number): readonly Solution[] {
    return this.#archive.front(most);
  }

  ask(most = Number.POSITIVE_INFINITY): readonly Float64Array[] {
    const batch: Float64Array[] = [];
    for (const { method } of this.#searches.filter(isRunning(this.#options))) {
      batch.push(...method.ask(Math.min(most - batch.length, this.#options.evaluations + 1 - method.evaluations)));
    }
    return batch;
  }

  tell(solutions: readonly Solution[]): void {
    for (const told of solutions) {
      this.#evaluations++;
      if (told.violation === Number.POSITIVE_INFINITY) this.#failures++;
      this.#note(told);
      for (const { goal, method } of this.#searches) {
        if (method.asks(told.x)) method.tell([towards(goal, this.#space, told)]);
      }
    }
  }

  #note(found: Solution): void {
    this.#archive.add(found);
    if (this.#nearest === undefined || found.violation < this.#nearest.violation) this.#nearest = found;
  }
}

/** The start's value is known beforehand and does not count. */
function isRunning({ evaluations }: PolishOptions) {
  return ({ method }: Search) => method.stop === undefined && method.evaluations <= evaluations;
}
