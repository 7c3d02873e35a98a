import { halfSize } from '../edge/index.js';
import { isMirrored, type ReducedModel, type SectionPoint } from '../host/index.js';
import { multiply } from '../linear/index.js';
import type { ActingLoad, CaseSlopes } from '../stress/index.js';
import type { CaseFactors } from './case-split.js';
import type { ChannelStress } from './channel-stress.js';
import type { PointStress } from './criteria.js';
import type { JudgedPoint } from './judged-points.js';
import { components, createPlaceRates } from './place-rates.js';

/** Stresses of every load on one side of the section: `sign` 1 the right one, or all of a host without mirror symmetry; -1 the left one in mirrored axes. */
export interface SectionSide {
  readonly sign: 1 | -1;
  /** One array per load. */
  readonly stress: readonly Float64Array[];
}

/** Judged points in the order of the buffers: those whose stress is always wanted come first. */
export interface PlaceOrder {
  readonly points: readonly JudgedPoint[];
  readonly always: number;
  /** Whether a point's tangential stress is wanted as well. */
  readonly tangential: (point: SectionPoint) => boolean;
}

/** Stresses of every load at points outside the control contour, from the moments of a channel's edge. */
export interface PlaceStress {
  /** Those of the outline that was taken last. */
  sides(): readonly SectionSide[];
  /** As `SectionStrength.take`; works out the points that are always wanted. */
  take(moments: readonly Float64Array[] | undefined, mirror: boolean): void;
  /** Works out another point. */
  workOut(i: number): void;
  /** Stress of a point in one case; tangential only where it is wanted. */
  combine(i: number, side: SectionSide, factors: CaseFactors, held: PointStress, grown: PointStress): void;
  /** Puts the stress of the field around the channel in the place of the map's, if the edge is near; whether anything changed. */
  refine(i: number, side: SectionSide): boolean;
  /** Takes the slopes of the outline that was taken last; the channel's `rates` take them, too. */
  takeSlopes(slopes: CaseSlopes): void;
  /**
   * Adds to `out`, one to a motion from `at` on, the rates of a point's weighted stress; `weights` are those of normal, tangential and shear stress, load
   * by load. Of the slopes that were taken last.
   */
  addRates(i: number, side: SectionSide, weights: Float64Array, out: Float64Array, at: number): void;
}

const none = new Float64Array(0);

/** @param channel the stress around the channel, which takes an outline before this does */
export function createPlaceStress(
  model: ReducedModel,
  loads: readonly ActingLoad[],
  channel: ChannelStress,
  order: PlaceOrder,
): PlaceStress {
  const { continued } = model.places;
  const half = halfSize(model.basis.degree);
  const mirrored = isMirrored(model);
  const count = order.points.length;
  const starts = startsOf(order);
  const size = starts[count]!;
  const firstSize = starts[order.always]!;
  const { maps, still } = mapsOf(model, loads, order, starts);
  const rates = createPlaceRates(
    loads.map(({ responseIndex }) => maps[responseIndex]),
    half,
    channel,
  );
  const right: SectionSide = { sign: 1, stress: loads.map(() => new Float64Array(size)) };
  const left: SectionSide = { sign: -1, stress: loads.map(() => new Float64Array(size)) };
  const rightOnly = [right];
  const both = [right, left];
  const odd = new Float64Array(firstSize);
  /** Evaluations in which a point's stress was worked out, and in which it was taken from the field on the right and on the left (negative: the edge is too far). */
  const worked = new Int32Array(count);
  const refined = { right: new Int32Array(count), left: new Int32Array(count) };
  let evaluation = 0;
  let moments: readonly Float64Array[] | undefined;
  let oneSide = false;

  const takeLoad = (l: number): void => {
    const map = moments && maps[loads[l]!.responseIndex];
    const even = right.stress[l]!;
    const { even: stillEven, odd: stillOdd } = still[l]!;
    if (map === undefined) even.fill(0, 0, firstSize);
    else multiply(map.even, firstSize, map.columns, moments![l]!, even);
    for (let i = 0; i < firstSize; i++) even[i]! += stillEven[i]!;
    if (oneSide) return;
    if (map === undefined) odd.fill(0);
    else multiply(map.odd, firstSize, half, moments![l]!.subarray(half), odd);
    const other = left.stress[l]!;
    for (let i = 0; i < firstSize; i++) {
      const uneven = odd[i]! + stillOdd[i]!;
      other[i] = even[i]! - uneven;
      even[i]! += uneven;
    }
  };

  return {
    sides: () => (oneSide ? rightOnly : both),
    take(given, symmetric) {
      moments = given;
      oneSide = symmetric || !mirrored;
      evaluation++;
      for (let l = 0; l < loads.length; l++) takeLoad(l);
    },
    workOut(i) {
      if (worked[i] === evaluation) return;
      worked[i] = evaluation;
      for (let l = 0; l < loads.length; l++) {
        const map = moments && maps[loads[l]!.responseIndex];
        for (let at = starts[i]!; at < starts[i + 1]!; at++) {
          let even = still[l]!.even[at]!;
          if (map !== undefined) even += rowTimes(map.even, at, map.columns, moments![l]!, 0);
          right.stress[l]![at] = even;
          if (oneSide) continue;
          let uneven = still[l]!.odd[at]!;
          if (map !== undefined) uneven += rowTimes(map.odd, at, half, moments![l]!, half);
          right.stress[l]![at] = even + uneven;
          left.stress[l]![at] = even - uneven;
        }
      }
    },
    combine(i, { stress }, { fixed, scaled }, held, grown) {
      const at = starts[i]!;
      const tangential = at + 2 < starts[i + 1]!;
      let n0 = 0;
      let t0 = 0;
      let s0 = 0;
      let n1 = 0;
      let t1 = 0;
      let s1 = 0;
      for (let l = 0; l < stress.length; l++) {
        const values = stress[l]!;
        const holds = fixed[l]!;
        const grows = scaled[l]!;
        n0 += holds * values[at]!;
        s0 += holds * values[at + 1]!;
        n1 += grows * values[at]!;
        s1 += grows * values[at + 1]!;
        if (!tangential) continue;
        t0 += holds * values[at + 2]!;
        t1 += grows * values[at + 2]!;
      }
      held.n = n0;
      held.t = t0;
      held.s = s0;
      grown.n = n1;
      grown.t = t1;
      grown.s = s1;
    },
    refine(i, { sign, stress }) {
      const done = sign === 1 ? refined.right : refined.left;
      if (Math.abs(done[i]!) === evaluation || moments === undefined) return false;
      done[i] = -evaluation;
      const { x, y, normalAngle } = order.points[i]!.at;
      if (channel.distance(sign * x, y) > continued.within) return false;
      const c = Math.cos(normalAngle);
      const s = Math.sin(normalAngle);
      const found = channel.at(sign * x, y);
      done[i] = evaluation;
      const at = starts[i]!;
      for (let l = 0; l < loads.length; l++) {
        const { xx, yy } = found[l]!;
        // On the left in mirrored axes.
        const xy = sign * found[l]!.xy;
        stress[l]![at] = xx * c * c + yy * s * s + 2 * xy * c * s;
        stress[l]![at + 1] = (xx - yy) * c * s - xy * (c * c - s * s);
        if (at + 2 < starts[i + 1]!) stress[l]![at + 2] = xx * s * s + yy * c * c - 2 * xy * c * s;
      }
      return true;
    },
    takeSlopes: (slopes) => rates.take(slopes),
    addRates(i, { sign }, weights, out, at) {
      const byField = (sign === 1 ? refined.right : refined.left)[i] === evaluation;
      const rows = [starts[i]!, starts[i + 1]!] as const;
      rates.add({ at: order.points[i]!.at, rows, sign, byField, byClass: !oneSide }, weights, out, at);
    },
  };
}

/** Where a point's stresses begin: normal, shear and, only where it is wanted, tangential. */
function startsOf({ points, tangential }: PlaceOrder): Int32Array {
  const starts = new Int32Array(points.length + 1);
  points.forEach((p, i) => {
    starts[i + 1] = starts[i]! + (tangential(p.at) ? 3 : 2);
  });
  return starts;
}

/**
 * The model's maps and undisturbed stresses, rows in the order of the buffers: over the moments of the symmetric class and of the other; of
 * a host without mirror symmetry, over all of them at once.
 */
function mapsOf(
  { basis, places, ...model }: ReducedModel,
  loads: readonly ActingLoad[],
  order: PlaceOrder,
  starts: Int32Array,
) {
  const half = halfSize(basis.degree);
  const pick = (all: Float64Array, offset: number, columns: number) => {
    const out = new Float64Array(starts[order.points.length]! * columns);
    order.points.forEach(({ of: [first, second], share }, i) => {
      for (let c = 0; c < starts[i + 1]! - starts[i]!; c++) {
        const from = offset + (3 * first + components[c]!) * columns;
        const to = offset + (3 * second + components[c]!) * columns;
        const at = (starts[i]! + c) * columns;
        for (let j = 0; j < columns; j++) out[at + j] = all[from + j]! + share * (all[to + j]! - all[from + j]!);
      }
    });
    return out;
  };
  const maps = places.change.map((map) =>
    'whole' in map
      ? { even: pick(map.whole, 0, 2 * half), odd: none, columns: 2 * half }
      : { even: pick(map.symmetric, 0, half), odd: pick(map.antisymmetric, 0, half), columns: half },
  );
  const mirrored = isMirrored(model);
  const still = loads.map(({ atPlaces }) => {
    const [even, odd] = [pick(atPlaces, 0, 1), pick(atPlaces, 3 * places.points.length, 1)];
    return mirrored ? { even, odd } : { even: even.map((value, i) => value + odd[i]!), odd: none };
  });
  return { maps, still };
}

function rowTimes(matrix: Float64Array, row: number, columns: number, x: Float64Array, offset: number): number {
  let sum = 0;
  for (let j = 0, at = row * columns; j < columns; j++, at++) sum += matrix[at]! * x[offset + j]!;
  return sum;
}
