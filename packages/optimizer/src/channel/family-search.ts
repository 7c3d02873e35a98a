import {
  createCurveNodes,
  nodesNeeded,
  type OutlineFamily,
  profileGeometry,
  scoreAt,
  scoreSize,
} from '@lumenfront/core';
import { Archive } from '../front/index.js';
import { Genetic, Minimax, Polish, type PolishStart, type Profile } from '../method/index.js';
import { type Method, type Solution, type Space, solution } from '../problem.js';
import type { Random } from '../random.js';
import { costOf, evaluationOf, familySpace, sizeOf } from './family-space.js';
import type { ScoreChannels, SearchRun } from './result.js';
import { firstOutlines } from './start.js';

/** What a descent is to do: the least cost at no less than `size` (may be 0), or the largest size at no more than `cost` (may be Infinity). */
export type DescentGoal = { readonly size: number } | { readonly cost: number };

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

/** A descent under way. */
export interface Descent {
  readonly method: Minimax;
  readonly goal: DescentGoal;
  /** Nodes of its profiles. */
  readonly nodes: number;
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
const frontSize = 150;
const population = 100;
/** Nodes of a descent at most: many active functions are costly, and the designs reported are evaluated anew. */
const mostProfileNodes = 128;
/** …and at least: an outline grows sharper tips on its way. */
const fewestProfileNodes = 96;
/** Gain of a set of slopes, as a share, that makes another worth its cost. */
const leastGain = 5e-4;
/** Kept from every limit, so that an outline that has come to it is admissible after rounding and between the nodes. */
const margin = 0.0005;
const curvatureMargin = 0.003;

/** The search of one family: a genetic algorithm, then descents and polishes; every admissible outline goes into its front. */
export class FamilySearch {
  readonly family: OutlineFamily;
  readonly space: Space;
  readonly front = new Archive({ size: frontSize });
  readonly runs: SearchRun[] = [];
  evaluations = 0;
  nearest: Solution | undefined;
  /** Scores hold a constraint on strength. */
  readonly limitsStrength: boolean;
  readonly #index: number;
  readonly #score: ScoreChannels;
  readonly #random: Random;
  readonly #firstLook = createCurveNodes(64);
  readonly #manyNodes = createCurveNodes(256);

  constructor(family: OutlineFamily, index: number, random: Random, score: ScoreChannels, limitsStrength: boolean) {
    this.family = family;
    this.space = familySpace(family);
    this.#index = index;
    this.#score = score;
    this.limitsStrength = limitsStrength;
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

  /** Descents from given outlines, not yet begun. */
  descents(starts: readonly DescentStart[], radius: number, gain = leastGain): Descent[] {
    return starts.map(({ from, goal }) => ({
      method: new Minimax(this.space.bounds, from.x, { radius, smallest: 1e-4, gain }),
      goal,
      nodes: this.#nodesFor(from.x),
    }));
  }

  /**
   * Goes on with descents side by side, until each has taken `slopes` slopes in all or stopped, with `most` evaluations in all:
   * those that come first in the list go on when not all can.
   */
  async descend(descents: readonly Descent[], slopes: number, most: number, accept: Accept): Promise<void> {
    const before = this.evaluations;
    let stop = 'no more gain';
    for (;;) {
      let left = most - (this.evaluations - before);
      const running = descents.filter(({ method }) => {
        const wanted = method.ask().length;
        if (wanted === 0 || (method.slopesTaken >= slopes && method.wantsSlopes)) return false;
        // The points of a slope belong together: what does not fit the budget as a whole is not begun.
        left -= wanted;
        if (left < 0) stop = 'budget spent';
        return left >= 0;
      });
      if (running.length === 0) break;
      // All that have the same number of nodes go to the workers as one batch; they are told in their order.
      const counts = [...new Set(running.map(({ nodes }) => nodes))];
      const scored = await Promise.all(
        counts.map(async (count) => {
          const alike = running.filter(({ nodes }) => nodes === count);
          const batches = alike.map(({ method }) => method.ask());
          return { alike, batches, profiles: await this.#score(this.#index, batches.flat(), count) };
        }),
      );
      for (const { alike, batches, profiles } of scored) {
        let first = 0;
        for (const [i, { method, goal, nodes }] of alike.entries()) {
          const batch = batches[i]!;
          const own = profiles.slice(first, first + batch.length);
          first += batch.length;
          method.tell(own.map((profile) => this.#profileOf(profile, nodes, goal)));
          this.#learn(this.#solutions(batch, own), accept);
        }
      }
    }
    this.#note('descent', stop, this.evaluations - before);
  }

  /** Improves points of the front by Nelder-Mead, `each` evaluations apiece and `most` in all. */
  async polish(starts: readonly PolishStart[], each: number, most: number, accept: Accept): Promise<void> {
    if (starts.length === 0) return;
    const steps = this.#spread(0.05);
    const method = new Polish(this.space, starts, { evaluations: each, archive: { size: frontSize }, steps });
    const before = this.evaluations;
    const left = () => most - (this.evaluations - before);
    while (method.stop === undefined && left() > 0 && (await this.#step(method, left(), accept)));
    this.#note('polish', method.stop ?? 'budget spent', this.evaluations - before);
  }

  /** Edge lengths of a first simplex: a share of each variable's spread over the front. */
  #spread(share: number): number[] {
    const members = this.front.front();
    const { lower, upper } = this.space.bounds;
    return Array.from(lower, (low, i) => {
      const values = members.map(({ x }) => x[i]!);
      return Math.max(share * (Math.max(...values) - Math.min(...values)), 0.002 * (upper[i]! - low));
    });
  }

  /** Asks, scores and tells one batch; false when the method has nothing to ask. */
  async #step(method: Method<unknown>, most: number, accept: Accept): Promise<boolean> {
    const batch = method.ask(most);
    if (batch.length === 0) return false;
    const scores = await this.#score(this.#index, batch);
    const solutions = this.#solutions(batch, scores);
    method.tell(solutions);
    this.#learn(solutions, accept);
    return true;
  }

  #solutions(batch: readonly Float64Array[], scores: readonly ArrayLike<number>[]): Solution[] {
    return batch.map((x, i) => solution(this.space, x, evaluationOf(scores[i]!)));
  }

  #learn(solutions: readonly Solution[], accept: Accept): void {
    for (const found of solutions) {
      this.front.add(found);
      if (this.nearest === undefined || found.violation < this.nearest.violation) this.nearest = found;
      accept(found);
    }
    this.evaluations += solutions.length;
  }

  #note(method: SearchRun['method'], stop: string, evaluations: number): void {
    if (evaluations === 0) return;
    const last = this.runs.at(-1);
    // Descents that end alike, one group after the other, are one run.
    const before = last?.method === method && last.stop === stop ? this.runs.pop()!.evaluations : 0;
    this.runs.push({ family: this.family.name, method, stop, evaluations: before + evaluations });
  }

  #nodesFor(x: Float64Array): number {
    this.family.place(x, this.#firstLook);
    return Math.min(
      Math.max(fewestProfileNodes, nodesNeeded(this.#firstLook, this.family.fewestNodes)),
      mostProfileNodes,
    );
  }

  /** A scored profile as a descent reads it; undefined where the outline could not be solved. */
  #profileOf(scored: ArrayLike<number>, nodes: number, goal: DescentGoal): Profile | undefined {
    const values = Float64Array.from(scored).subarray(scoreSize);
    if (!values.every(Number.isFinite)) return undefined;
    const limits = 2 * profileGeometry * (this.family.mirror ? nodes / 2 : nodes);
    const hoop = values.subarray(0, values.length - limits);
    const geometry = values
      .subarray(values.length - limits)
      .map((value, i) => value + (i < limits / 2 ? margin : curvatureMargin));
    // The sharpest edge and the thinnest wall lie between the nodes, where a descent would otherwise find them.
    const between = [scored[scoreAt.room]! + margin, scored[scoreAt.edgeRadius]! + margin];
    const strength = this.limitsStrength ? [scored[scoreAt.strength]! + margin] : [];
    const size = scored[scoreAt.area]!;
    if ('size' in goal) {
      const lacking = goal.size > 0 ? [1 + margin - size / goal.size] : [];
      return { functions: hoop, constraints: Float64Array.of(...geometry, ...between, ...strength, ...lacking) };
    }
    const excess = hoop.map((value) => value / goal.cost - 1);
    return {
      functions: Float64Array.of(-size),
      constraints: Float64Array.of(...geometry, ...between, ...strength, ...excess),
    };
  }
}
