import { Archive } from '../../front/index.js';
import { checkBounds, type Method, type Solution, type Space } from '../../problem.js';
import type { Random } from '../../random.js';
import { frontStalled, type StallOptions, type StoppingRule } from '../stopping.js';
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
export class Genetic implements Method {
  readonly #space: Space;
  readonly #options: Required<Pick<GeneticOptions, 'population' | 'batch' | 'archive'>> & GeneticOptions;
  readonly #random: Random;
  #population: Solution[] = [];
  readonly #archive: Archive;
  /** What came nearest to being feasible; any feasible one once there is one. */
  #nearest: Solution | undefined;
  #evaluations = 0;
  #failures = 0;
  readonly #seen = new Set<number>();
  readonly #waiting: Candidate[];
  /** Asked for and not told yet, by fingerprint. */
  readonly #outstanding = new Map<number, Candidate>();
  readonly #choice = new VariationChoice(variations.map(() => 1));
  readonly #stall: StoppingRule | undefined;
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
    const { reference } = options;
    this.#archive = new Archive({ size: archive, ...(reference && { reference }) });
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
