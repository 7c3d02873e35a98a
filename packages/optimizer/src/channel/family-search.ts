import { createCurveNodes, type OutlineFamily, type SearchRun } from '@lumenfront/core';
import { Archive } from '../front/index.js';
import { firstEdges, Genetic, Polish, type PolishStart } from '../method/index.js';
import { type Method, type Solution, type Space, solution } from '../problem.js';
import type { Random } from '../random.js';
import type { ChannelEvaluator, DescentGoal, DescentResult } from './evaluator.js';
import { costOf, evaluationOf, familySpace, sizeOf } from './family-space.js';
import { firstOutlines } from './start.js';

export interface DescentStart {
  readonly from: { readonly x: Float64Array };
  readonly goal: DescentGoal;
}

/** A start towards a given size. */
export interface SizedStart extends DescentStart {
  readonly goal: { readonly size: number };
}

/** An outline from which a descent may begin, with the size and cost that it has or should have. */
export interface Known {
  readonly x: Float64Array;
  readonly size: number;
  readonly cost: number;
}

/** How the descents of one call are carried out. */
export interface DescentPlan {
  readonly radius: number;
  readonly slopes: number;
  readonly gain?: number;
  /** Evaluations of all of them. */
  readonly most: number;
}

/** Where a descent came to, and what it was to do. */
export interface Descended extends DescentResult {
  readonly goal: DescentGoal;
}

/** A solution and the search that found it. */
export interface Owned extends Solution {
  readonly owner: FamilySearch;
}

/** Told of every outline that was evaluated, for the front of the whole search. */
export type Accept = (found: Solution) => void;

/** Points to a batch: enough to feed every worker of an ordinary machine. */
const batchSize = 64;
/** Solutions that each family's front may have. */
const frontSize = 100;
const population = 100;
/** Gain of a set of slopes, as a share, that makes another worth its cost. */
const leastGain = 5e-4;
/** The search of one family: a genetic algorithm, then descents and polishes; every admissible outline goes into its front. */
export class FamilySearch {
  readonly family: OutlineFamily;
  readonly space: Space;
  readonly front = new Archive({ size: frontSize });
  readonly runs: SearchRun[] = [];
  evaluations = 0;
  nearest: Solution | undefined;
  readonly #index: number;
  readonly #evaluator: ChannelEvaluator;
  readonly #random: Random;
  readonly #manyNodes = createCurveNodes(256);

  constructor(family: OutlineFamily, index: number, random: Random, evaluator: ChannelEvaluator) {
    this.family = family;
    this.space = familySpace(family);
    this.#index = index;
    this.#evaluator = evaluator;
    this.#random = random;
  }

  /** The outlines of its front. */
  known(): Known[] {
    return this.front.front().map((found) => ({ x: found.x, size: sizeOf(found), cost: costOf(found) }));
  }

  /** Outlines of this family like those that others found; none where it cannot imitate. */
  imitations(found: readonly Owned[]): Known[] {
    const { family } = this;
    if (family.imitate === undefined) return [];
    return found.map((other) => {
      other.owner.family.place(other.x, this.#manyNodes);
      return { x: family.imitate!(this.#manyNodes), size: sizeOf(other), cost: costOf(other) };
    });
  }

  /** Runs the genetic algorithm from `known` points and others spread over the box, until it stalls or has spent `most` evaluations. */
  async evolve(known: readonly Float64Array[], most: number, accept: Accept, between: () => boolean): Promise<void> {
    const fresh = firstOutlines(this.family, 2 * population, this.#random.split('start'));
    const genetic = new Genetic(this.space, this.#random, {
      population,
      batch: batchSize,
      archive: frontSize,
      initial: [...known, ...fresh],
      stall: { window: 1000, tolerance: 0.005 },
    });
    let stop: string | undefined = 'aborted';
    while (between()) {
      stop = genetic.stop ?? (genetic.evaluations >= most ? 'budget spent' : undefined);
      if (stop !== undefined || !(await this.#step(genetic, most - genetic.evaluations, accept))) break;
      stop = 'aborted';
    }
    this.#note('genetic', stop ?? 'nothing new to try', genetic.evaluations);
  }

  /** Descents side by side; those that come first in the list when the budget is too small for all. */
  async descend(starts: readonly DescentStart[], plan: DescentPlan, accept: Accept): Promise<Descended[]> {
    const { radius, slopes, gain = leastGain } = plan;
    // A slope and a step at least, or it is not worth beginning.
    const count = Math.min(starts.length, Math.floor(plan.most / (2 * this.family.parameters.length)));
    if (count < 1) return [];
    const most = Math.floor(plan.most / count);
    const chosen = starts.slice(0, count);
    const requests = chosen.map(({ from, goal }) => ({ x: from.x, goal, radius, slopes, gain, most }));
    const results = await this.#evaluator.descend(this.#index, requests);
    for (const { passed, evaluations, stop } of results) {
      this.#learn(
        passed.map(({ x, score }) => solution(this.space, x, evaluationOf(score))),
        accept,
      );
      this.evaluations += evaluations;
      this.#note('descent', stop, evaluations);
    }
    return results.map((result, i) => ({ ...result, goal: chosen[i]!.goal }));
  }

  /** Improves points of the front by Nelder-Mead, `each` evaluations apiece and `most` in all. */
  async polish(starts: readonly PolishStart[], each: number, most: number, accept: Accept): Promise<void> {
    if (starts.length === 0) return;
    const known = this.front.front().map(({ x }) => x);
    const steps = firstEdges(known, this.space.bounds);
    const method = new Polish(this.space, starts, { evaluations: each, archive: { size: frontSize }, steps });
    const before = this.evaluations;
    const left = () => most - (this.evaluations - before);
    while (method.stop === undefined && left() > 0 && (await this.#step(method, left(), accept)));
    this.#note('polish', method.stop ?? 'budget spent', this.evaluations - before);
  }

  /** Asks, scores and tells one batch; false when the method has nothing to ask. */
  async #step(method: Method, most: number, accept: Accept): Promise<boolean> {
    const batch = method.ask(most);
    if (batch.length === 0) return false;
    const scores = await this.#evaluator.score(this.#index, batch);
    const solutions = batch.map((x, i) => solution(this.space, x, evaluationOf(scores[i]!)));
    method.tell(solutions);
    this.#learn(solutions, accept);
    this.evaluations += batch.length;
    return true;
  }

  #learn(solutions: readonly Solution[], accept: Accept): void {
    for (const found of solutions) {
      this.front.add(found);
      if (this.nearest === undefined || found.violation < this.nearest.violation) this.nearest = found;
      accept(found);
    }
  }

  #note(method: SearchRun['method'], stop: string, evaluations: number): void {
    if (evaluations > 0) this.runs.push({ family: this.family.name, method, stop, evaluations });
  }
}
