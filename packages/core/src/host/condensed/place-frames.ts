import { framedCount } from '../../edge/index.js';
import { type DenseMatrix, largestEntry, lowRank, matrixOf, plus, rowOf } from '../../linear/index.js';
import type { PlaceMaps } from '../place-maps.js';
import { type ByClass, keptOf, mapClasses, type OutsideBody, type Recoverable } from './condensed.js';
import type { Inside, Trial } from './inside.js';
import type { System } from './system.js';
import { momentUnit } from './virtual-channel.js';

type RecoverableSystem = System<Recoverable>;

/**
 * What moments beyond a point's degree tell of its stress, at most, as a share of what sources just inside the contour give there. Channels of
 * random joints, at every limit: 0.02 % of the largest stress of a place, 1 % at walls of 0.01 bend radii.
 */
const leftOut = 1e-3;

/** Maps of moments to the stresses at the chosen places, support by support, each place's up to the degree that tells it. */
export function placeMaps(
  inside: Inside,
  supports: readonly ByClass<RecoverableSystem>[],
  body: OutsideBody,
  chosen: readonly number[],
  everyMoment: boolean,
): Pick<PlaceMaps, 'basis' | 'degrees' | 'frame' | 'change'> {
  const { degree } = inside.basis;
  const known = new Map<System, Float64Array>();
  /** Of each class, how the host is held first. */
  const firsts = new Map<Trial, StatesWithMap>();
  const whole = supports.map((support) =>
    mapClasses(support, (system) => {
      const map = known.get(system);
      if (map !== undefined) return map;
      const kept = framedStates(system);
      const first = firsts.get(system.trial);
      const found = (first && mapBeside(first, kept, body, chosen)) ?? body.stresses(kept.values, kept.columns, chosen);
      if (first === undefined) firsts.set(system.trial, { kept, map: found });
      known.set(system, found);
      return found;
    }),
  );
  const degrees = new Array<number>(chosen.length).fill(everyMoment ? degree : 1);
  for (const [system, map] of everyMoment ? [] : known) raiseDegrees(map, system.trial, degree, degrees);
  const short = new Map<Float64Array, Float64Array>();
  return {
    basis: inside.basis,
    degrees,
    frame: mapClasses(inside.trials, ({ frame }) => frame),
    change: whole.map((support) =>
      mapClasses(support, (map, of) => {
        const cut = short.get(map) ?? shortened(map, degrees, (to) => framedCount(of, to));
        short.set(map, cut);
        return cut;
      }),
    ),
  };
}

/**
 * What the body kept of the states that framed moments cause, one a column: what the contour's displacements `V A^+ q` do to the outside. A half of
 * the contour sees half of a moment.
 */
function framedStates({ inside, trial, outside, joined }: RecoverableSystem): DenseMatrix {
  const unit = momentUnit(inside) * (trial.of === 'whole' ? 1 : 1 / 2);
  const moved = joined.solve(trial.orthonormal);
  const states = trial.order.map((_, j) => ({
    displacement: rowOf(moved, trial.rigid + j).map((value) => unit * value),
    scalars: {},
  }));
  return matrixOf(keptOf(outside, states), states.length);
}

/** States of the body, one a column, and the stresses at the chosen places, `3 places` rows. */
interface StatesWithMap {
  readonly kept: DenseMatrix;
  readonly map: Float64Array;
}

/**
 * Differences of states below this share of the largest are rounding: two or three motions of far ends are all that another way of holding them changes, the
 * rest is at most 1e-12.
 */
const rounding = 1e-12;

/**
 * The map of a host that is held otherwise, from the stresses of those few states by which it differs; undefined where that saves little. It stays the
 * same within 1e-10.
 */
function mapBeside(
  first: StatesWithMap,
  kept: DenseMatrix,
  body: OutsideBody,
  chosen: readonly number[],
): Float64Array | undefined {
  const difference = plus(kept, first.kept, -1);
  const part = lowRank(difference, kept.columns >> 2, rounding * largestEntry(kept.values));
  if (part === undefined) return undefined;
  const motions = part.left.length;
  const left = Float64Array.from(
    { length: kept.rows * motions },
    (_, i) => part.left[i % motions]![Math.floor(i / motions)]!,
  );
  const stresses = body.stresses(left, motions, chosen);
  const map = first.map.slice();
  for (let row = 0; row * motions < stresses.length; row++)
    part.right.forEach((shares, m) => {
      const stress = stresses[row * motions + m]!;
      for (let j = 0; j < shares.length; j++) map[row * shares.length + j]! += stress * shares[j]!;
    });
  return map;
}

/** Raises the degrees of points to what one map asks for. */
function raiseDegrees(map: Float64Array, { of, channel: { largest } }: Trial, degree: number, degrees: number[]): void {
  const columns = largest.length;
  const parts = new Float64Array(degree + 1);
  for (let p = 0; p < degrees.length; p++) {
    parts.fill(0);
    for (let row = 3 * p; row < 3 * p + 3; row++)
      for (let to = 1, j = 0; to <= degree; to++)
        for (; j < framedCount(of, to); j++) parts[to]! += Math.abs(map[row * columns + j]!) * largest[j]!;
    const total = parts.reduce((sum, part) => sum + part, 0);
    let tail = 0;
    let needed = degree;
    for (; needed > 1 && tail + parts[needed]! <= leftOut * total; needed--) tail += parts[needed]!;
    degrees[p] = Math.max(degrees[p]!, needed);
  }
}

/** Of each point's three rows, what its degree holds. */
function shortened(map: Float64Array, degrees: readonly number[], countOf: (degree: number) => number): Float64Array {
  const columns = map.length / (3 * degrees.length);
  const out = new Float64Array(degrees.reduce((sum, degree) => sum + 3 * countOf(degree), 0));
  let to = 0;
  degrees.forEach((degree, p) => {
    const length = countOf(degree);
    for (let row = 3 * p; row < 3 * p + 3; row++, to += length)
      out.set(map.subarray(row * columns, row * columns + length), to);
  });
  return out;
}
