import { Archive } from '../../front/index.js';
import {
  checkBounds,
  type Method,
  restoreSolution,
  type SavedSolution,
  type Solution,
  type Space,
  saveSolution,
} from '../../problem.js';
import { type Random, type RandomState, restoreRandom } from '../../random.js';
import { frontStalled, type StallOptions, type StallRule, type StallState } from '../stopping.js';
import { binaryCrossover } from './binary-crossover.js';
import { differential } from './differential.js';
import { fingerprint } from './fingerprint.js';
import { line } from './line.js';
import { Mating } from './mating.js';
import { reset } from './reset.js';
import { latinHypercube } from './sampling.js';
import { survivors } from './survival.js';
import { type Variation, within } from './variation.js';
import { VariationChoice } from './variation-choice.js';

/** How a genetic search works. */
export interface GeneticOptions {
  /** Solutions that beget; 100 where left out. */
  readonly population?: number;
  /** Points to an `ask`; 50 where left out. Part of the search's course: the same batch gives the same result. */
  readonly batch?: number;
  /** Solutions that the front may have; 100 where left out. */
  readonly archive?: number;
  /** Reference point of the archive's hypervolume; left out, the ends of the front stay whatever they add. */
  readonly reference?: readonly number[];
  /** Points to begin with, before those that are spread over the box; brought within the bounds. */
  readonly initial?: readonly ArrayLike<number>[];
  /** End when the front gains less than this; left out, only the caller ends the search. */
  readonly stall?: StallOptions;
}

/** All that a genetic search needs to go on; plain JSON. */
export interface GeneticState {
  readonly options: Omit<GeneticOptions, 'initial'>;
  readonly random: RandomState;
  readonly population: readonly SavedSolution[];
  readonly archive: readonly SavedSolution[];
  readonly nearest: SavedSolution | null;
  readonly evaluations: number;
  readonly failures: number;
  readonly seen: readonly number[];
  /** Points waiting to be asked for, those asked for and not told first. */
  readonly waiting: readonly { readonly x: readonly number[]; readonly variation: number | null }[];
  readonly rates: readonly number[];
  readonly stall: StallState | null;
  readonly stop: string | null;
}

interface Candidate {
  readonly x: Float64Array;
  /** Which variation made it; none for points that the search began with. */
  readonly variation: number | undefined;
}

const variations: readonly Variation[] = [binaryCrossover, differential, line, reset];

/** Known points in a row before there is nothing new to try; from half of them on, points are drawn at random. */
const attempts = 40;

/**
 * Multi-objective genetic algorithm: Latin hypercube sampling, tournament and neighbourhood mating, four variations drawn by
 * their success, survival by rank and hypervolume contribution, an archive of every feasible non-dominated solution seen. No
 * point is asked for twice.
 *
 * Solutions that it did not ask for may be told at any time; they join the population and the archive.
 */
export class Genetic implements Method<GeneticState> {
  readonly #space: Space;
  readonly #options: Required<Pick<GeneticOptions, 'population' | 'batch' | 'archive'>> & GeneticOptions;
  #random: Random;
  #population: Solution[] = [];
  #archive: Archive;
  /** What came nearest to being feasible; any feasible one once there is one. */
  #nearest: Solution | undefined;
  #evaluations = 0;
  #failures = 0;
  #seen = new Set<number>();
  #waiting: Candidate[];
  /** Asked for and not told yet, by fingerprint. */
  readonly #outstanding = new Map<number, Candidate>();
  #choice = new VariationChoice(variations.map(() => 1));
  #stall: StallRule | undefined;
  #stop: string | undefined;

  constructor(space: Space, random: Random, options: GeneticOptions = {}) {
    checkBounds(space.bounds);
    for (const ends of [space.bounds.lower, space.bounds.upper]) {
      if (!Array.from(ends).every(Number.isFinite)) {
        throw new RangeError(`bounds: expected finite ends, received ${Array.from(ends).join(', ')}`);
      }
    }
    const { population = 100, batch = 50, archive = 100, initial = [] } = options;
    for (const [name, size] of Object.entries({ population, batch, archive })) {
      if (!(size >= 1)) throw new RangeError(`${name}: expected at least 1, received ${size}`);
    }
    this.#space = space;
    this.#options = { ...options, population, batch, archive };
    this.#random = random;
    this.#archive = new Archive(this.#archiveOptions());
    this.#stall = options.stall && frontStalled(options.stall);
    const spread = latinHypercube(Math.max(0, population - initial.length), space.bounds, random);
    this.#waiting = [...initial, ...spread].map((x) => {
      return { x: Float64Array.from(x, (value, i) => within(space.bounds, i, value)), variation: undefined };
    });
  }

  get evaluations(): number {
    return this.#evaluations;
  }

  get failures(): number {
    return this.#failures;
  }

  get stop(): string | undefined {
    return this.#stop;
  }

  get leastInfeasible(): Solution | undefined {
    return this.#nearest !== undefined && this.#nearest.violation > 0 ? this.#nearest : undefined;
  }

  front(most?: number): readonly Solution[] {
    return this.#archive.front(most);
  }

  ask(most: number = this.#options.batch): readonly Float64Array[] {
    const size = Math.min(most, this.#options.batch);
    const batch: Candidate[] = [];
    while (this.#waiting.length > 0 && batch.length < size) {
      const candidate = this.#waiting.shift()!;
      if (this.#claim(candidate)) batch.push(candidate);
    }
    if (batch.length < size) this.#beget(size, batch);
    if (batch.length === 0) this.#stop ??= 'nothing new to try';
    return batch.map(({ x }) => x.slice());
  }

  tell(solutions: readonly Solution[]): void {
    const made = variations.map(() => 0);
    const survived = variations.map(() => 0);
    const origin = new Map<Solution, number>();
    for (const told of solutions) {
      const key = fingerprint(told.x);
      const candidate = this.#outstanding.get(key);
      if (candidate === undefined && this.#seen.has(key)) continue;
      this.#outstanding.delete(key);
      this.#seen.add(key);
      this.#learn(told);
      if (candidate?.variation !== undefined) {
        made[candidate.variation]! += 1;
        origin.set(told, candidate.variation);
      }
    }
    this.#population = survivors(this.#population, this.#options.population);
    for (const member of this.#population) {
      const variation = origin.get(member);
      if (variation !== undefined) survived[variation]! += 1;
    }
    this.#choice.learn(made, survived);
    this.#stop ??= this.#stall?.reason(this);
  }

  save(): GeneticState {
    const { initial: _, ...options } = this.#options;
    return {
      options,
      random: this.#random.save(),
      population: this.#population.map(saveSolution),
      archive: this.#archive.save(),
      nearest: this.#nearest === undefined ? null : saveSolution(this.#nearest),
      evaluations: this.#evaluations,
      failures: this.#failures,
      seen: [...this.#seen].filter((key) => !this.#outstanding.has(key)),
      waiting: [...this.#outstanding.values(), ...this.#waiting].map(({ x, variation = null }) => {
        return { x: Array.from(x), variation };
      }),
      rates: this.#choice.save(),
      stall: this.#stall?.save() ?? null,
      stop: this.#stop ?? null,
    };
  }

  /** Goes on where `save()` was called; the space must be the same. What was asked for and not told is asked for again. */
  static restore(space: Space, state: GeneticState): Genetic {
    const { options, nearest, stall } = state;
    const method = new Genetic(space, restoreRandom(state.random), options);
    // Again, since setting up drew from it.
    method.#random = restoreRandom(state.random);
    method.#population = state.population.map(restoreSolution);
    method.#archive = Archive.restore(method.#archiveOptions(), state.archive);
    method.#nearest = nearest === null ? undefined : restoreSolution(nearest);
    method.#evaluations = state.evaluations;
    method.#failures = state.failures;
    method.#seen = new Set(state.seen);
    method.#waiting = state.waiting.map(({ x, variation }) => {
      return { x: Float64Array.from(x), variation: variation ?? undefined };
    });
    method.#choice = new VariationChoice(state.rates);
    method.#stall = options.stall && frontStalled(options.stall, stall ?? undefined);
    method.#stop = state.stop ?? undefined;
    return method;
  }

  #archiveOptions() {
    const { archive, reference } = this.#options;
    return { size: archive, ...(reference && { reference }) };
  }

  /** Makes children until `batch` holds `size` points that are new, or nothing new turns up. */
  #beget(size: number, batch: Candidate[]): void {
    const { bounds } = this.#space;
    const random = this.#random;
    const mating = this.#population.length > 0 ? new Mating(this.#population, random) : undefined;
    let misses = 0;
    while (batch.length < size && misses < attempts) {
      let candidate: Candidate;
      if (mating === undefined || misses > attempts / 2) {
        candidate = { x: latinHypercube(1, bounds, random)[0]!, variation: undefined };
      } else {
        const { parent, mate } = mating.pair();
        const variation = this.#choice.draw(random);
        candidate = { x: variations[variation]!.child(parent, mate, bounds, random), variation };
      }
      if (this.#claim(candidate)) {
        batch.push(candidate);
        misses = 0;
      } else {
        misses++;
      }
    }
  }

  /** Notes a point as asked for, unless it was before. */
  #claim(candidate: Candidate): boolean {
    const key = fingerprint(candidate.x);
    if (this.#seen.has(key)) return false;
    this.#seen.add(key);
    this.#outstanding.set(key, candidate);
    return true;
  }

  #learn(told: Solution): void {
    this.#evaluations++;
    // A failure is no parent for anyone: it says nothing about where to go.
    if (told.violation === Number.POSITIVE_INFINITY) this.#failures++;
    else this.#population.push(told);
    this.#archive.add(told);
    if (this.#nearest === undefined || told.violation < this.#nearest.violation) this.#nearest = told;
  }
}
