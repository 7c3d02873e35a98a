import type { Bounds } from '../problem.js';
import { linearProgram } from './linear-program.js';

/** Many smooth functions of one point, of fixed number and order. */
export interface Profile {
  /** The largest of these is to be made small. */
  readonly functions: Float64Array;
  /** Each met where it is <= 0. Normalised by the size of what is allowed. */
  readonly constraints: Float64Array;
}

export interface MinimaxOptions {
  /** First radius of trust, as a share of each variable's range. */
  readonly radius: number;
  /** Ends when the radius falls below this share. */
  readonly smallest: number;
  /** Slopes taken at most. */
  readonly steps: number;
}

/**
 * Descent for `min max_i f_i(x)` with `g_j(x) <= 0`, the `f` and `g` smooth: linearise all of them, solve the linear program inside a
 * box of trust, try the step at three lengths, and adapt the box (Madsen, J. Inst. Math. Appl. 16 (1975) 321-328; constraints by
 * an exact penalty). Quadratically convergent where as many functions are active as there are variables, as with uniform stress.
 *
 * Slopes by forward differences, then updated along the steps for a while: one batch holds all the points of a slope, another the trial steps, so that workers are fed.
 */
export class Minimax {
  readonly #bounds: Bounds;
  readonly #smallest: number;
  #stepsLeft: number;
  #radius: number;
  #x: Float64Array;
  #here: Profile | undefined;
  #merit = Number.POSITIVE_INFINITY;
  #penalty = 0;
  #phase: 'start' | 'slopes' | 'steps' = 'start';
  #asked: Float64Array[] = [];
  #slopes: Slopes | undefined;
  /** Steps since the slopes were taken by differences. */
  #age = 0;
  #stop: string | undefined;

  constructor(bounds: Bounds, start: ArrayLike<number>, { radius, smallest, steps }: MinimaxOptions) {
    this.#bounds = bounds;
    this.#x = Float64Array.from(start);
    this.#radius = radius;
    this.#smallest = smallest;
    this.#stepsLeft = steps;
    this.#asked = [this.#x];
  }

  /** Best point so far. */
  get x(): Float64Array {
    return this.#x;
  }

  get stop(): string | undefined {
    return this.#stop;
  }

  /** Points whose profiles are wanted next, all of them; none once `stop` says why. */
  ask(): readonly Float64Array[] {
    return this.#stop === undefined ? this.#asked : [];
  }

  /** Profiles of the points asked for, in their order; undefined where there is none. */
  tell(profiles: readonly (Profile | undefined)[]): void {
    if (this.#phase === 'start') {
      const first = profiles[0];
      if (first === undefined) {
        this.#stop = 'start has no profile';
        return;
      }
      this.#penalty = 3 * Math.max(...first.functions.map(Math.abs));
      this.#accept(this.#x, first);
      this.#askSlopes();
    } else if (this.#phase === 'slopes') this.#learnSlopes(profiles);
    else this.#judge(profiles);
  }

  #accept(x: Float64Array, profile: Profile): void {
    this.#x = x;
    this.#here = profile;
    this.#merit = this.#meritOf(profile);
  }

  #askSlopes(): void {
    this.#phase = 'slopes';
    const x = this.#x;
    const { lower, upper } = this.#bounds;
    this.#asked = Array.from(x, (value, k) => {
      const range = upper[k]! - lower[k]!;
      const beside = x.slice();
      const step = differenceStep * range;
      beside[k] = value + step <= upper[k]! ? value + step : value - step;
      return beside;
    });
  }

  #learnSlopes(profiles: readonly (Profile | undefined)[]): void {
    const here = this.#here!;
    const n = this.#x.length;
    const { lower, upper } = this.#bounds;
    const slopesOf = (pick: (profile: Profile) => Float64Array) => {
      const values = pick(here);
      const out = new Float64Array(values.length * n);
      profiles.forEach((profile, k) => {
        if (profile === undefined) return;
        const step = (this.#asked[k]![k]! - this.#x[k]!) / (upper[k]! - lower[k]!);
        const beside = pick(profile);
        for (let i = 0; i < values.length; i++) out[i * n + k] = (beside[i]! - values[i]!) / step;
      });
      return out;
    };
    this.#slopes = { functions: slopesOf((p) => p.functions), constraints: slopesOf((p) => p.constraints) };
    this.#age = 0;
    this.#proposeSteps();
  }

  #proposeSteps(): void {
    const step = linearStep(this.#bounds, this.#x, this.#here!, this.#slopes!, this.#radius, this.#penalty);
    const { lower, upper } = this.#bounds;
    this.#phase = 'steps';
    this.#asked = stepLengths.map((length) =>
      this.#x.map((value, k) =>
        Math.min(upper[k]!, Math.max(lower[k]!, value + length * step[k]! * (upper[k]! - lower[k]!))),
      ),
    );
  }

  #judge(profiles: readonly (Profile | undefined)[]): void {
    let best = -1;
    let merit = this.#merit;
    profiles.forEach((profile, i) => {
      if (profile === undefined) return;
      const value = this.#meritOf(profile);
      if (value < merit) {
        merit = value;
        best = i;
      }
    });
    const gained = this.#merit - merit;
    const stale = this.#age > 0;
    // The whole step was good: trust more; only a part or none: less.
    this.#radius *=
      best === 0 ? 2 : best < 0 ? stepLengths.at(-1)! / (stale ? 1 : 2) : Math.max(0.5, stepLengths[best]!);
    if (best >= 0) {
      const before = { x: this.#x, profile: this.#here! };
      this.#accept(this.#asked[best]!, profiles[best]!);
      this.#updateSlopes(before.x, before.profile);
    }
    const poor = gained < leastGain * Math.abs(this.#merit);
    if (poor && stale) {
      // Slopes that were only updated may be to blame.
      this.#radius = Math.max(this.#radius, 4 * this.#smallest);
      this.#takeNewSlopes();
    } else if (this.#radius < this.#smallest) this.#stop = 'step too small';
    else if (best < 0) this.#proposeSteps();
    else if (poor) this.#stop = 'no more gain';
    else if (this.#age >= oldest) this.#takeNewSlopes();
    else this.#proposeSteps();
  }

  #takeNewSlopes(): void {
    if (--this.#stepsLeft <= 0) this.#stop = 'steps spent';
    else this.#askSlopes();
  }

  /** Broyden's update (Math. Comput. 19 (1965) 577-593) of every row: the slopes along the step just taken become the ones seen. */
  #updateSlopes(fromX: Float64Array, from: Profile): void {
    const { lower, upper } = this.#bounds;
    const step = this.#x.map((value, k) => (value - fromX[k]!) / (upper[k]! - lower[k]!));
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
    update(this.#slopes!.functions, this.#here!.functions, from.functions);
    update(this.#slopes!.constraints, this.#here!.constraints, from.constraints);
    this.#age++;
  }

  #meritOf({ functions, constraints }: Profile): number {
    let most = Number.NEGATIVE_INFINITY;
    for (const value of functions) if (!(value <= most)) most = value;
    let violation = 0;
    for (const value of constraints) if (!(value <= violation)) violation = value;
    const merit = most + this.#penalty * violation;
    return Number.isNaN(merit) ? Number.POSITIVE_INFINITY : merit;
  }
}

interface Slopes {
  /** Row-major, functions x variables, per share of a variable's range. */
  readonly functions: Float64Array;
  readonly constraints: Float64Array;
}

const differenceStep = 1e-4;
const stepLengths = [1, 0.5, 0.2] as const;
const leastGain = 1e-4;
/** Steps after which slopes are taken anew. */
const oldest = 5;
/** Rows of the linear program at most: those that can matter most within the box. */
const mostRows = 90;

/** Step of the linearised problem within the box of trust, as shares of the variables' ranges. */
function linearStep(
  bounds: Bounds,
  x: Float64Array,
  here: Profile,
  slopes: Slopes,
  radius: number,
  penalty: number,
): Float64Array {
  const n = x.length;
  // Unknowns: step / radius, largest function / penalty, violation.
  const width = n + 2;
  const functions = relevant(here.functions, slopes.functions, n, radius);
  const constraints = relevant(here.constraints, slopes.constraints, n, radius);
  const count = functions.length + constraints.length + 2 * n + 1;
  const rows = new Float64Array(count * width);
  const limits = new Float64Array(count);
  let row = 0;
  for (const i of functions) {
    for (let k = 0; k < n; k++) rows[row * width + k] = (radius * slopes.functions[i * n + k]!) / penalty;
    rows[row * width + n] = -1;
    limits[row++] = -here.functions[i]! / penalty;
  }
  for (const i of constraints) {
    for (let k = 0; k < n; k++) rows[row * width + k] = radius * slopes.constraints[i * n + k]!;
    rows[row * width + n + 1] = -1;
    limits[row++] = -here.constraints[i]!;
  }
  for (let k = 0; k < n; k++) {
    const range = bounds.upper[k]! - bounds.lower[k]!;
    // A hair of room at a bound keeps the start strictly inside.
    rows[row * width + k] = 1;
    limits[row++] = Math.max(1e-9, Math.min(1, (bounds.upper[k]! - x[k]!) / (range * radius)));
    rows[row * width + k] = -1;
    limits[row++] = Math.max(1e-9, Math.min(1, (x[k]! - bounds.lower[k]!) / (range * radius)));
  }
  rows[row * width + n + 1] = -1;
  limits[row] = 0;
  const cost = new Float64Array(width);
  cost[n] = 1;
  cost[n + 1] = 1;
  const start = new Float64Array(width);
  start[n] = Math.max(...functions.map((i) => here.functions[i]!)) / penalty + 0.1;
  start[n + 1] = Math.max(0, ...constraints.map((i) => here.constraints[i]!)) + 0.1;
  const z = linearProgram(cost, rows, limits, start);
  return z.subarray(0, n).map((value) => value * radius);
}

/** Rows by how large they can become within the box, the largest first. */
function relevant(values: Float64Array, slopes: Float64Array, n: number, radius: number): number[] {
  const reach = values.map((value, i) => {
    let most = value;
    for (let k = 0; k < n; k++) most += radius * Math.abs(slopes[i * n + k]!);
    return most;
  });
  return Array.from(reach.keys())
    .sort((a, b) => reach[b]! - reach[a]!)
    .slice(0, mostRows);
}
