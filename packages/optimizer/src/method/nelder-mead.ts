import type { Method, Solution, Space } from '../problem.js';
import { type BoundedMap, boundedMap } from './bounded-map.js';
import { regularSimplex } from './regular-simplex.js';
import { type Coefficients, simplexCoefficients, simplexStep, type Vertex } from './simplex-step.js';

/** How a simplex search works. */
export interface NelderMeadOptions {
  /**
   * Edge lengths of the first simplex, in the variables' units. Left out: a tenth of the box, and for a variable without two
   * bounds its own size at the start, at least 1.
   */
  readonly steps?: readonly number[];
  /**
   * What a unit of violation adds to the objective (exact penalty). Left out: ten times the size of the objective at the
   * start. It grows tenfold at each restart from an infeasible point, so that the search ends feasible where it can.
   */
  readonly penalty?: number;
  /**
   * Searches from the start, each with another first simplex, before the method ends by itself: which local minimum is found
   * depends on the first simplex. Left out: 6.
   */
  readonly searches?: number;
}

export interface Corner extends Vertex {
  readonly solution: Solution;
}

/** What carries out a run needs of the search: corners all known, best first; where a point lies inside the bounds; the corner of what was found there. */
export interface PresentRun {
  readonly simplex: readonly Corner[];
  readonly coefficients: Coefficients;
  readonly inside: BoundedMap['inside'];
  readonly learn: (at: Float64Array, found: Solution) => Corner;
  readonly hasCollapsed: (simplex: readonly Vertex[]) => boolean;
}

/** A point to be evaluated: where the simplex is, and what that is inside the bounds. */
interface Pending {
  readonly at: Float64Array;
  readonly x: Float64Array;
}

/** Restarts without a gain after which a search has converged, and what counts as a gain, relative to the value. */
const idleRestarts = 2;
const leastGain = 1e-8;
/** A simplex has collapsed when its edges are this small, relative to the first ones, and its values this near. */
const smallEdge = 1e-7;
const smallSpread = 1e-10;
/** Edges at which rounding rules, whatever the values do. */
const noEdge = 1e-15;

/**
 * Nelder-Mead's simplex search (Comput. J. 7 (1965) 308-313) for one objective, step by step (see `simplexStep`).
 *
 * Around that step: a smooth map onto the bounds; a regular first simplex; a new simplex of a quarter the size, turned over, at the best
 * point whenever the old one has collapsed or would shrink, until that gains nothing; then further searches from the start.
 *
 * Asks for the corners of a simplex as a batch, and for one point at a time after that. Told points that it did not ask for count
 * towards what was found; they do not move the simplex, except that the start's value may be told before the first `ask`.
 */
export class NelderMead implements Method {
  readonly #map: BoundedMap;
  readonly #coefficients: Coefficients;
  readonly #steps: readonly number[];
  readonly #freeSteps: readonly number[];
  readonly #searches: number;
  readonly #start: Float64Array;
  #penalty: number | undefined;
  #startSolution: Solution | undefined;
  #best: Solution | undefined;
  #evaluations = 0;
  #failures = 0;
  #search = 0;
  /** Factor on the steps of the present simplex; negative when it is turned over. */
  #edge = 1;
  /** Value at the last restart; undefined in the first run of a search. */
  #before: number | undefined;
  #idle = 0;
  /** True until all corners of a new simplex are known. */
  #opening = true;
  #simplex: Corner[] = [];
  #trials: Corner[] = [];
  #pending: Pending[] = [];
  #stop: string | undefined;

  constructor(space: Space, start: ArrayLike<number>, options: NelderMeadOptions = {}) {
    const { bounds } = space;
    const n = bounds.lower.length;
    if (space.objectives !== 1) throw new RangeError(`Nelder-Mead: expected 1 objective, received ${space.objectives}`);
    if (start.length !== n) throw new RangeError(`start: expected ${n} variables, received ${start.length}`);
    for (let i = 0; i < n; i++) {
      if (!Number.isFinite(start[i]))
        throw new RangeError(`start ${i}: expected a finite number, received ${start[i]}`);
    }
    this.#map = boundedMap(bounds);
    this.#start = Float64Array.from(start, (value, i) => Math.min(Math.max(value, bounds.lower[i]!), bounds.upper[i]!));
    this.#penalty = options.penalty;
    this.#searches = options.searches ?? 6;
    this.#steps =
      options.steps ??
      Array.from(this.#start, (value, i) => {
        const width = bounds.upper[i]! - bounds.lower[i]!;
        return Number.isFinite(width) ? width / 10 : Math.max(1, Math.abs(value));
      });
    // The map carries an angle of pi to the width of the box, twice as fast in its middle as on average.
    this.#freeSteps = this.#steps.map((step, i) => {
      const width = bounds.upper[i]! - bounds.lower[i]!;
      return width > 0 && Number.isFinite(width) ? (2 * step) / width : step;
    });
    this.#coefficients = simplexCoefficients(n);
    const at = this.#map.free(this.#start);
    this.#pending = [{ at, x: this.#start }, ...this.#corners(at)];
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
    return this.#best !== undefined && this.#best.violation > 0 ? this.#best : undefined;
  }

  front(): readonly Solution[] {
    return this.#best !== undefined && this.#best.violation === 0 ? [this.#best] : [];
  }

  ask(most = Number.POSITIVE_INFINITY): readonly Float64Array[] {
    return this.#pending.slice(0, most).map(({ x }) => x.slice());
  }

  /** Whether the value of `x` is what the search waits for. */
  asks(x: Float64Array): boolean {
    return this.#indexOf(x) >= 0;
  }

  tell(solutions: readonly Solution[]): void {
    for (const told of solutions) {
      this.#note(told);
      const index = this.#indexOf(told.x);
      if (index < 0) continue;
      const [{ at }] = this.#pending.splice(index, 1) as [Pending];
      if (this.#startSolution === undefined && index === 0) this.#learnStart(told);
      (this.#opening ? this.#simplex : this.#trials).push(this.#corner(at, told));
      if (this.#pending.length === 0) this.#proceed();
    }
  }

  /**
   * Whether the next step is that of a simplex whose corners are all known: a whole run can begin.
   *
   * @internal
   */
  get isOpen(): boolean {
    return !this.#opening && this.#trials.length === 0 && this.#stop === undefined;
  }

  /**
   * Has the rest of the present run carried out by others, up to the collapse of its simplex or to where it would shrink.
   *
   * @param run returns the best corner that it found
   * @internal
   */
  handOver(run: (given: PresentRun) => Corner): void {
    const best = run({
      simplex: this.#simplex,
      coefficients: this.#coefficients,
      inside: this.#map.inside,
      learn: (at, found) => {
        this.#note(found);
        return this.#corner(at, found);
      },
      hasCollapsed: (simplex) => this.#hasCollapsed(simplex),
    });
    this.#simplex = [best];
    this.#restart();
  }

  #indexOf(point: Float64Array): number {
    return this.#pending.findIndex(({ x }) => x.every((value, i) => value === point[i]));
  }

  #note(told: Solution): void {
    this.#evaluations++;
    if (told.violation === Number.POSITIVE_INFINITY) this.#failures++;
    if (this.#best === undefined || isBetter(told, this.#best)) this.#best = told;
  }

  #learnStart(told: Solution): void {
    this.#startSolution = told;
    const size = Math.abs(told.objectives[0]!);
    this.#penalty ??= 10 * (Number.isFinite(size) && size > 0 ? size : 1);
  }

  #corner(at: Float64Array, solution: Solution): Corner {
    const value = solution.objectives[0]! + (this.#penalty ?? 0) * solution.violation;
    // Not infinity: values are subtracted from each other.
    return { at, solution, value: Number.isFinite(value) ? value : Number.MAX_VALUE };
  }

  #corners(origin: Float64Array): Pending[] {
    const edges = this.#freeSteps.map((step) => this.#edge * step);
    return regularSimplex(origin, edges).map((at) => ({ at, x: this.#map.inside(at) }));
  }

  /** Everything asked for is known: goes on to the next question, or to the end. */
  #proceed(): void {
    if (this.#opening) {
      // Valued only now: the penalty may have come with the last of them.
      this.#simplex = this.#simplex.map(({ at, solution }) => this.#corner(at, solution));
      this.#opening = false;
    }
    for (;;) {
      this.#simplex.sort((a, b) => a.value - b.value);
      if (this.#hasCollapsed(this.#simplex)) break;
      const step = simplexStep(this.#simplex, this.#trials, this.#coefficients);
      if (step.kind === 'try') {
        this.#pending = [{ at: step.at, x: this.#map.inside(step.at) }];
        return;
      }
      this.#trials = [];
      if (step.kind === 'shrink') break;
      this.#simplex[this.#simplex.length - 1] = step.vertex;
    }
    this.#restart();
  }

  #hasCollapsed(simplex: readonly Vertex[]): boolean {
    const best = simplex[0]!;
    let edge = 0;
    for (const { at } of simplex) {
      for (let i = 0; i < at.length; i++) {
        edge = Math.max(edge, Math.abs((at[i]! - best.at[i]!) / (this.#edge * this.#freeSteps[i]! || 1)));
      }
    }
    const spread = simplex[simplex.length - 1]!.value - best.value;
    return edge <= noEdge || (edge <= smallEdge && spread <= smallSpread * (Math.abs(best.value) + smallSpread));
  }

  #restart(): void {
    let { at, solution, value } = this.#simplex[0]!;
    if (this.#before !== undefined) {
      this.#idle = this.#before - value > leastGain * Math.abs(this.#before) ? 0 : this.#idle + 1;
    }
    this.#edge /= -4;
    if (this.#idle >= idleRestarts) {
      this.#search++;
      if (this.#search >= this.#searches) {
        this.#stop = 'simplex collapsed';
        return;
      }
      this.#edge = (this.#search % 2 === 0 ? 1 : -1) * 2 ** -Math.floor(this.#search / 2);
      this.#idle = 0;
      this.#before = undefined;
      at = this.#map.free(this.#start);
      solution = this.#startSolution!;
    } else {
      if (solution.violation > 0) this.#penalty! *= 10;
      this.#before = this.#corner(at, solution).value;
    }
    this.#opening = true;
    this.#simplex = [this.#corner(at, solution)];
    this.#pending = this.#corners(at);
  }
}

function isBetter(a: Solution, b: Solution): boolean {
  return a.violation < b.violation || (a.violation === b.violation && a.objectives[0]! < b.objectives[0]!);
}
