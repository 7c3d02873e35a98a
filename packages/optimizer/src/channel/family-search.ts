import type { OutlineFamily } from '@lumenfront/core';
import { Archive } from '../front/index.js';
import { Genetic, Polish, type PolishStart } from '../method/index.js';
import { type Method, type Solution, type Space, solution } from '../problem.js';
import type { Random } from '../random.js';
import { evaluationOf, familySpace } from './family-space.js';
import type { ScoreChannels, SearchRun } from './result.js';
import { firstOutlines } from './start.js';

/** Points to a batch: enough to feed every worker of an ordinary machine. */
const batchSize = 64;
/** Solutions that each family's front may have. */
const frontSize = 150;
const population = 100;

/** The search of one family: a genetic algorithm, then polishes; every admissible outline goes into its front. */
export class FamilySearch {
  readonly family: OutlineFamily;
  readonly space: Space;
  readonly front = new Archive({ size: frontSize });
  readonly runs: SearchRun[] = [];
  evaluations = 0;
  nearest: Solution | undefined;
  readonly #index: number;
  readonly #score: ScoreChannels;
  readonly #genetic: Genetic;

  constructor(family: OutlineFamily, index: number, random: Random, score: ScoreChannels) {
    this.family = family;
    this.space = familySpace(family);
    this.#index = index;
    this.#score = score;
    this.#genetic = new Genetic(this.space, random, {
      population,
      batch: batchSize,
      archive: frontSize,
      initial: firstOutlines(family, 2 * population, random.split('start')),
      stall: { window: 1500, tolerance: 0.002 },
    });
  }

  get stalled(): boolean {
    return this.#genetic.stop !== undefined;
  }

  /** One batch of the genetic algorithm; how many of its outlines `accept` took. */
  async evolve(most: number, accept: (found: Solution) => boolean): Promise<number> {
    return this.#step(this.#genetic, most, accept);
  }

  /** Ends the genetic run and notes why. */
  endEvolution(reason: string): void {
    const { evaluations, stop } = this.#genetic;
    if (evaluations > 0)
      this.runs.push({ family: this.family.name, method: 'genetic', stop: stop ?? reason, evaluations });
  }

  /** Improves points of the front by Nelder-Mead, `each` evaluations apiece and `most` in all. */
  async polish(
    starts: readonly PolishStart[],
    each: number,
    most: number,
    steps: readonly number[],
    accept: (found: Solution) => boolean,
  ): Promise<void> {
    if (starts.length === 0 || most < 1) return;
    const method = new Polish(this.space, starts, { evaluations: each, archive: { size: frontSize }, steps });
    const before = this.evaluations;
    while (method.stop === undefined && this.evaluations - before < most)
      if ((await this.#step(method, most - (this.evaluations - before), accept)) < 0) break;
    const evaluations = this.evaluations - before;
    const stop = method.stop ?? 'budget spent';
    this.runs.push({ family: this.family.name, method: 'polish', stop, evaluations });
  }

  /** Edge lengths of a polish's first simplex: a share of each variable's spread over the front. */
  spread(share: number): number[] {
    const members = this.front.front();
    const { lower, upper } = this.space.bounds;
    return Array.from(lower, (low, i) => {
      const values = members.map(({ x }) => x[i]!);
      const range = members.length > 1 ? Math.max(...values) - Math.min(...values) : 0;
      return Math.max(share * range, 0.002 * (upper[i]! - low));
    });
  }

  /** Asks, scores and tells one batch; -1 when the method has nothing to ask. */
  async #step(method: Method<unknown>, most: number, accept: (found: Solution) => boolean): Promise<number> {
    const batch = method.ask(most);
    if (batch.length === 0) return -1;
    const scores = await this.#score(this.#index, batch);
    const solutions = batch.map((x, i) => solution(this.space, x, evaluationOf(scores[i]!)));
    method.tell(solutions);
    this.evaluations += solutions.length;
    let accepted = 0;
    for (const found of solutions) {
      this.front.add(found);
      if (this.nearest === undefined || found.violation < this.nearest.violation) this.nearest = found;
      if (accept(found)) accepted++;
    }
    return accepted;
  }
}
