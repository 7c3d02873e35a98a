import type { Bounds } from '../problem.js';
import { linearProgram } from './linear-program.js';

/** Many smooth functions of one point, of fixed number and order. */
export interface Profile {
  /** The largest of these is to be made small. */
  readonly functions: Float64Array;
  /** Each met where it is <= 0. Normalised by the size of what is allowed. */
  readonly constraints: Float64Array;
}

/** How a descent works. */
export interface MinimaxOptions {
  /** First radius of trust, as a share of each variable's range. */
  readonly radius: number;
  /** Ends when the radius falls below this share. */
  readonly smallest: number;
  /** Ends when the steps since the last slopes brought less than this share of the merit. */
  readonly gain: number;
}

/**
 * Descent for `min max_i f_i(x)` with `g_j(x) <= 0`, the `f` and `g` smooth: linearise all of them, solve the linear program inside a
 * box of trust, try the step at three lengths, and adapt the box (Madsen, J. Inst. Math. Appl. 16 (1975) 321-328). Quadratically
 * convergent where as many functions are active as there are variables, as with uniform stress. Where the whole step brings less
 * than it promised, the program is solved again with the values seen at its end, which takes the curvature of the active
 * functions into account (Fletcher, Practical Methods of Optimization, 2nd ed. 1987, section 14.4: second-order correction).
 *
 * The largest violation has an exact penalty, which grows while the violation does not shrink: too high a penalty from the start
 * would keep the descent in the narrow curved valleys between constraints.
 *
 * Slopes by forward differences, then updated along the steps for a while: one batch holds all the points of a slope, another the
 * trial steps, so that workers are fed. The caller may end the descent at any time, best before the next slopes.
 */
export class Minimax {
  readonly #bounds: Bounds;
  readonly #smallest: number;
  readonly #gain: number;
  #radius: number;
  #x: Float64Array;
  #here: Profile = { functions: new Float64Array(), constraints: new Float64Array() };
  /** Size of the functions at the start, the unit of the merit. */
  #scale = 1;
  #penalty = firstPenalty;
  #merit = Number.POSITIVE_INFINITY;
  /** Merit where the slopes were taken. */
  #meritAtSlopes = Number.POSITIVE_INFINITY;
  /** Violation when the slopes were taken. */
  #violation = Number.POSITIVE_INFINITY;
  #phase: 'start' | 'slopes' | 'steps' | 'correction' = 'start';
  #asked: readonly Float64Array[];
  /** Steps tried from the present point, with their lengths, best first. */
  #trials: readonly Trial[] = [];
  /** Fall of the merit that the linear program foretells. */
  #promised = 0;
  #slopes: Slopes = { functions: new Float64Array(), constraints: new Float64Array() };
  #slopesTaken = 0;
  /** Steps since the slopes were taken by differences. */
  #age = 0;
  #stop: string | undefined;

  constructor(bounds: Bounds, start: ArrayLike<number>, { radius, smallest, gain }: MinimaxOptions) {
    this.#bounds = bounds;
    this.#x = Float64Array.from(start);
    this.#radius = radius;
    this.#smallest = smallest;
    this.#gain = gain;
    this.#asked = [this.#x];
  }

  /** Best point so far. */
  get x(): Float64Array {
    return this.#x;
  }

  /** The largest function there. */
  get value(): number {
    return this.#here.functions.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  }

  /** The largest violation there. */
  get violation(): number {
    return violationOf(this.#here);
  }

  /** Slopes told so far. */
  get slopesTaken(): number {
    return this.#slopesTaken;
  }

  /** Whether slopes are what is asked for next. */
  get wantsSlopes(): boolean {
    return this.#phase === 'slopes';
  }

  /** Why there is nothing more to do; undefined while there is. */
  get stop(): string | undefined {
    return this.#stop;
  }

  /** Points whose profiles are wanted next, all of them; none once `stop` says why. */
  ask(): readonly Float64Array[] {
    return this.#stop === undefined ? this.#asked : [];
  }

  /** Profiles of the points asked for, in their order; undefined where there is none. */
  tell(profiles: readonly (Profile | undefined)[]): void {
    if (this.#phase === 'start') this.#begin(profiles[0]);
    else if (this.#phase === 'slopes') this.#learnSlopes(profiles);
    else if (this.#phase === 'steps') this.#learnSteps(profiles);
    else this.#judge([...this.#trials, ...this.#trialsOf(profiles, [1])]);
  }

  #begin(first: Profile | undefined): void {
    if (first === undefined) {
      this.#stop = 'start has no profile';
      return;
    }
    const size = first.functions.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    this.#scale = size > 0 ? size : 1;
    this.#accept(this.#x, first);
    this.#askSlopes();
  }

  #accept(x: Float64Array, profile: Profile): void {
    this.#x = x;
    this.#here = profile;
    this.#merit = this.#meritOf(profile);
  }

  #askSlopes(): void {
    if (this.#meritAtSlopes - this.#merit < this.#gain * Math.abs(this.#merit) && violationOf(this.#here) <= met) {
      this.#stop = 'no more gain';
      return;
    }
    this.#meritAtSlopes = this.#merit;
    this.#phase = 'slopes';
    const x = this.#x;
    const { upper } = this.#bounds;
    this.#asked = Array.from(x, (value, k) => {
      const beside = x.slice();
      const step = differenceStep * this.#range(k);
      beside[k] = value + step <= upper[k]! ? value + step : value - step;
      return beside;
    });
  }

  #learnSlopes(profiles: readonly (Profile | undefined)[]): void {
    const here = this.#here;
    const n = this.#x.length;
    const slopesOf = (pick: (profile: Profile) => Float64Array) => {
      const values = pick(here);
      const out = new Float64Array(values.length * n);
      profiles.forEach((profile, k) => {
        if (profile === undefined) return;
        const step = (this.#asked[k]![k]! - this.#x[k]!) / this.#range(k);
        const beside = pick(profile);
        for (let i = 0; i < values.length; i++) out[i * n + k] = (beside[i]! - values[i]!) / step;
      });
      return out;
    };
    this.#slopes = { functions: slopesOf((p) => p.functions), constraints: slopesOf((p) => p.constraints) };
    this.#slopesTaken++;
    this.#age = 0;
    const violation = violationOf(here);
    if (violation > met && violation > this.#violation / 2) {
      this.#penalty *= penaltyGrowth;
      this.#merit = this.#meritOf(here);
      this.#meritAtSlopes = this.#merit;
    }
    this.#violation = violation;
    this.#askSteps();
  }

  #askSteps(): void {
    const step = this.#linearStep(this.#here);
    this.#promised = this.#merit - this.#meritOf(along(this.#here, this.#slopes, step, 1));
    this.#phase = 'steps';
    this.#asked = stepLengths.map((length) => this.#at(step, length));
  }

  #learnSteps(profiles: readonly (Profile | undefined)[]): void {
    this.#trials = this.#trialsOf(profiles, stepLengths);
    const whole = profiles[0];
    if (whole === undefined || this.#merit - this.#meritOf(whole) > goodShare * this.#promised) {
      this.#judge(this.#trials);
      return;
    }
    const step = this.#stepTo(this.#asked[0]!);
    this.#phase = 'correction';
    this.#asked = [this.#at(this.#linearStep(along(whole, this.#slopes, step, -1)), 1)];
  }

  #trialsOf(profiles: readonly (Profile | undefined)[], lengths: readonly number[]): Trial[] {
    return profiles.flatMap((profile, i) =>
      profile === undefined
        ? []
        : [{ x: this.#asked[i]!, profile, length: lengths[i]!, merit: this.#meritOf(profile) }],
    );
  }

  #judge(trials: readonly Trial[]): void {
    const best = trials.reduce<Trial | undefined>((a, b) => (b.merit < (a?.merit ?? this.#merit) ? b : a), undefined);
    const least = leastGain * Math.abs(this.#merit);
    const poor = best === undefined || this.#merit - best.merit < least;
    const stale = this.#age > 0;
    if (best !== undefined) {
      const { x, profile } = { x: this.#x, profile: this.#here };
      this.#accept(best.x, best.profile);
      this.#updateSlopes(x, profile);
    }
    if (poor && stale) {
      // Slopes that were only updated may be to blame, not the box.
      this.#askSlopes();
      return;
    }
    this.#radius *= best === undefined ? stepLengths.at(-1)! / 2 : best === trials[0] ? 2 : Math.max(0.5, best.length);
    if (this.#promised < least) this.#end('no more gain');
    else if (this.#radius < this.#smallest) this.#end('step too small');
    else if (best !== undefined && this.#age >= oldest) this.#askSlopes();
    else this.#askSteps();
  }

  /** Ends, unless a constraint is still violated and a higher penalty may help. */
  #end(reason: string): void {
    if (violationOf(this.#here) <= met || this.#penalty > mostPenalty) this.#stop = reason;
    else {
      this.#radius = Math.max(this.#radius, 4 * this.#smallest);
      this.#askSlopes();
    }
  }

  /** Broyden's update (Math. Comput. 19 (1965) 577-593) of every row: the slopes along the step just taken become the ones seen. */
  #updateSlopes(fromX: Float64Array, from: Profile): void {
    const step = this.#stepTo(this.#x, fromX);
    const squared = step.reduce((sum, value) => sum + value * value, 0);
    const n = step.length;
    const update = (slopes: Float64Array, now: Float64Array, before: Float64Array) => {
      for (let i = 0; i < now.length; i++) {
        let missed = now[i]! - before[i]!;
        for (let k = 0; k < n; k++) missed -= slopes[i * n + k]! * step[k]!;
        missed /= squared;
        for (let k = 0; k < n; k++) slopes[i * n + k]! += missed * step[k]!;
      }
    };
    update(this.#slopes.functions, this.#here.functions, from.functions);
    update(this.#slopes.constraints, this.#here.constraints, from.constraints);
    this.#age++;
  }

  #meritOf({ functions, constraints }: Profile): number {
    let most = Number.NEGATIVE_INFINITY;
    for (const value of functions) if (!(value <= most)) most = value;
    const merit = most / this.#scale + this.#penalty * violationOf({ functions, constraints });
    return Number.isNaN(merit) ? Number.POSITIVE_INFINITY : merit;
  }

  #linearStep(values: Profile): Float64Array {
    const size = { radius: this.#radius, scale: this.#scale, penalty: this.#penalty };
    return linearStep(this.#bounds, this.#x, values, this.#slopes, size);
  }

  #range(k: number): number {
    return this.#bounds.upper[k]! - this.#bounds.lower[k]!;
  }

  #stepTo(to: Float64Array, from = this.#x): Float64Array {
    return to.map((value, k) => (value - from[k]!) / this.#range(k));
  }

  #at(step: Float64Array, length: number): Float64Array {
    const { lower, upper } = this.#bounds;
    return this.#x.map((value, k) =>
      Math.min(upper[k]!, Math.max(lower[k]!, value + length * step[k]! * this.#range(k))),
    );
  }
}

interface Trial {
  readonly x: Float64Array;
  readonly profile: Profile;
  /** As a share of the step that the linear program gave. */
  readonly length: number;
  readonly merit: number;
}

interface Slopes {
  /** Row-major, functions x variables, per share of a variable's range. */
  readonly functions: Float64Array;
  readonly constraints: Float64Array;
}

const differenceStep = 1e-4;
const stepLengths = [1, 0.5, 0.2] as const;
/** Share of the promised fall that makes a correction needless. */
const goodShare = 0.7;
const leastGain = 1e-4;
/** Steps after which slopes are taken anew. */
const oldest = 5;
/** A violation up to here counts as none. */
const met = 1e-4;
/** Penalty of a violation of 1 in units of the functions' size at the start; it doubles for each slope without enough progress. */
const firstPenalty = 3;
const penaltyGrowth = 2;
const mostPenalty = 1e4;

function violationOf({ constraints }: Profile): number {
  let violation = 0;
  for (const value of constraints) if (!(value <= violation)) violation = value;
  return violation;
}

/** Values after `times` a step, were all of them linear. */
function along(values: Profile, slopes: Slopes, step: Float64Array, times: number): Profile {
  const n = step.length;
  const move = (from: Float64Array, rows: Float64Array) =>
    from.map((value, i) => {
      let change = 0;
      for (let k = 0; k < n; k++) change += rows[i * n + k]! * step[k]!;
      return value + times * change;
    });
  return {
    functions: move(values.functions, slopes.functions),
    constraints: move(values.constraints, slopes.constraints),
  };
}

/** Room that keeps the start of a linear program strictly inside; a step beyond a bound by this share of the box is cut off. */
const hair = 1e-3;

/** Radius of trust, size of the largest function, and what a violation costs. */
interface StepSize {
  readonly radius: number;
  readonly scale: number;
  readonly penalty: number;
}

/** Step of the linearised problem within the box of trust, as shares of the variables' ranges. */
function linearStep(
  bounds: Bounds,
  x: Float64Array,
  here: Profile,
  slopes: Slopes,
  { radius, scale, penalty }: StepSize,
): Float64Array {
  const n = x.length;
  // Unknowns: step / radius, largest function / scale, violation.
  const width = n + 2;
  const functions = contenders(here, slopes, n, radius);
  const constraints = threats(here, slopes, n, radius);
  const count = functions.length + constraints.length;
  const rows = new Float64Array(count * width);
  const limits = new Float64Array(count);
  let row = 0;
  for (const i of functions) {
    for (let k = 0; k < n; k++) rows[row * width + k] = (radius * slopes.functions[i * n + k]!) / scale;
    rows[row * width + n] = -1;
    limits[row++] = -here.functions[i]! / scale;
  }
  for (const i of constraints) {
    for (let k = 0; k < n; k++) rows[row * width + k] = radius * slopes.constraints[i * n + k]!;
    rows[row * width + n + 1] = -1;
    limits[row++] = -here.constraints[i]!;
  }
  const lower = new Float64Array(width).fill(Number.NEGATIVE_INFINITY);
  const upper = new Float64Array(width).fill(Number.POSITIVE_INFINITY);
  for (let k = 0; k < n; k++) {
    const range = bounds.upper[k]! - bounds.lower[k]!;
    upper[k] = Math.max(hair, Math.min(1, (bounds.upper[k]! - x[k]!) / (range * radius)));
    lower[k] = -Math.max(hair, Math.min(1, (x[k]! - bounds.lower[k]!) / (range * radius)));
  }
  lower[n + 1] = 0;
  const cost = new Float64Array(width);
  cost[n] = 1;
  cost[n + 1] = penalty;
  const start = new Float64Array(width);
  const largest = (values: Float64Array, of: readonly number[], least: number) =>
    of.reduce((most, i) => Math.max(most, values[i]!), least);
  start[n] = largest(here.functions, functions, Number.NEGATIVE_INFINITY) / scale + hair;
  start[n + 1] = largest(here.constraints, constraints, 0) + hair;
  const z = linearProgram({ cost, rows, limits, lower, upper }, start);
  return z.subarray(0, n).map((value) => value * radius);
}

/** Which of the largest function's candidates can be it somewhere within the box. */
function contenders({ functions }: Profile, slopes: Slopes, n: number, radius: number): number[] {
  const swings = swingsOf(functions, slopes.functions, n, radius);
  // Whatever the step, the largest function is at least this.
  const floor = functions.reduce((most, value, i) => Math.max(most, value - swings[i]!), Number.NEGATIVE_INFINITY);
  return Array.from(functions.keys()).filter((i) => functions[i]! + swings[i]! >= floor);
}

/** Which constraints can be violated somewhere within the box. */
function threats({ constraints }: Profile, slopes: Slopes, n: number, radius: number): number[] {
  const swings = swingsOf(constraints, slopes.constraints, n, radius);
  return Array.from(constraints.keys()).filter((i) => constraints[i]! + swings[i]! > 0);
}

/** How far each value can change within the box. */
function swingsOf(values: Float64Array, slopes: Float64Array, n: number, radius: number): Float64Array {
  return values.map((_, i) => {
    let swing = 0;
    for (let k = 0; k < n; k++) swing += Math.abs(slopes[i * n + k]!);
    return radius * swing;
  });
}
