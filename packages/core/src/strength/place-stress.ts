import { type FramedFields, framedCount } from '../edge/index.js';
import { isMirrored, type ReducedModel, type SectionPoint } from '../host/index.js';
import { multiply } from '../linear/index.js';
import type { ActingLoad, CaseSlopes, SolvedEdge } from '../stress/index.js';
import type { CaseFactors } from './case-split.js';
import type { PointStress } from './criteria.js';
import { judgedDegree, judgedStill, placeMap } from './judged-maps.js';
import type { JudgedPoint } from './judged-points.js';
import { createPlaceMoments, type FramedMoments } from './place-moments.js';

/** Stresses of every load on one side of the section: `sign` 1 the right one, or all of a host without mirror symmetry; -1 the left one in mirrored axes. */
export interface SectionSide {
  readonly sign: 1 | -1;
  /** One array per load. */
  readonly stress: readonly Float64Array[];
}

/** Judged points in the order of the buffers: those that are always looked at come first, in rows. */
export interface PlaceOrder {
  readonly points: readonly JudgedPoint[];
  /** How many of those come before each row, and in the end of all. */
  readonly rows: readonly number[];
  /** Whether a point's tangential stress is wanted as well. */
  readonly tangential: (point: SectionPoint) => boolean;
}

/** Stresses of every load at points outside the control contour, from the moments of a channel's edge; each is worked out when it is asked for. */
export interface PlaceStress {
  /** Those of the outline that was taken last. */
  sides(): readonly SectionSide[];
  /** As `SectionStrength.take`. */
  take(edge: SolvedEdge | undefined, oneSide: boolean): void;
  /**
   * Writes what no stress of a point exceeds on either side, all loads together with a factor of 0 or more each; tangential only where it is wanted. A tenth of the
   * work of the stress itself: few moments tell nearly all, and for the rest stands its length.
   */
  bound(i: number, factors: Float64Array, out: PointStress): void;
  /** The same of all points of a row that are always looked at. */
  boundRow(row: number, factors: Float64Array, out: PointStress): void;
  /** Stress of a point in one case; tangential only where it is wanted. */
  combine(i: number, side: SectionSide, factors: CaseFactors, held: PointStress, grown: PointStress): void;
  /** Takes the slopes of the outline that was taken last. */
  takeSlopes(slopes: CaseSlopes): void;
  /**
   * Adds to `out`, one to a motion from `at` on, the rates of a point's weighted stress; `weights` are those of normal, tangential and shear stress, load
   * by load. Of the slopes that were taken last.
   */
  addRates(i: number, side: SectionSide, weights: Float64Array, out: Float64Array, at: number): void;
}

/** Normal, shear, tangential among the model's `(n, t, nt)`. */
const components = [0, 2, 1] as const;

export function createPlaceStress(model: ReducedModel, loads: readonly ActingLoad[], order: PlaceOrder): PlaceStress {
  const mirrored = isMirrored(model);
  const count = order.points.length;
  const table = tableOf(model, order);
  const { starts, parts } = table;
  const size = starts[count]!;
  const maps = model.places.change.map((map) =>
    'whole' in map
      ? [mapOf(model, order, table, 0, map.whole)]
      : [mapOf(model, order, table, 0, map.symmetric), mapOf(model, order, table, 1, map.antisymmetric)],
  );
  const undisturbed = loads.map((load) => stillOf(load, model.places.points.length, order, starts, mirrored));
  /** The same with what the channel changes by the strain along it. */
  const still = undisturbed.map(({ even, odd }) => ({ even: even.slice(), odd }));
  const strained = model.places.strained?.map((values) => pointsOf(values, 0, order, starts)) ?? [];
  const moments = createPlaceMoments(model, loads);
  const right: SectionSide = { sign: 1, stress: loads.map(() => new Float64Array(size)) };
  const left: SectionSide = { sign: -1, stress: loads.map(() => new Float64Array(size)) };
  const rightOnly = [right];
  const both = [right, left];
  const always = order.rows.at(-1)!;
  const alwaysSize = starts[always]!;
  const firstMoments = maps.map((own) => own.map((map, part) => firstColumns(map, alwaysSize, parts[part]!.few)));
  const told = parts.map(() => new Float64Array(alwaysSize));
  const most = loads.map(() => new Float64Array(size));
  /** Of each row, normal, shear and tangential. */
  const mostInRows = loads.map(() => new Float64Array(3 * order.rows.length));
  /** Lengths of the moments beyond the first few, load by load and part by part. */
  const rest = loads.map(() => new Float64Array(2));
  const weights: FramedMoments = {
    even: new Float64Array(parts[0]!.most),
    odd: new Float64Array(parts[1]?.most ?? 0),
  };
  /** Evaluations in which a point's stress was worked out, and its bound. */
  const worked = new Int32Array(count);
  const bounded = new Int32Array(count);
  let evaluation = 0;
  let withChannel = false;
  let oneSide = false;
  let slopes: CaseSlopes;

  const strainLoad = (l: number, strain: number): void => {
    const { even } = still[l]!;
    even.set(undisturbed[l]!.even);
    const byStrain = strained[loads[l]!.responseIndex];
    if (byStrain === undefined || strain === 0) return;
    for (let at = 0; at < even.length; at++) even[at]! += strain * byStrain[at]!;
  };

  const momentsOf = (l: number, part: number): Float64Array => {
    const { even, odd } = moments.framed[l]!;
    return part === 0 ? even : odd;
  };

  /** A part of a load's stress at a row, channel and all. */
  const stressAt = (l: number, part: number, at: number): number => {
    const { even, odd } = still[l]!;
    const map = withChannel ? maps[loads[l]!.responseIndex]?.[part] : undefined;
    const undisturbed = part === 0 ? even[at]! : odd[at]!;
    if (map === undefined) return undisturbed;
    return undisturbed + product(map.values, map.offsets[at]!, map.offsets[at + 1]!, momentsOf(l, part));
  };

  /** What it does not exceed. */
  const mostAt = (l: number, part: number, at: number): number => {
    const { even, odd } = still[l]!;
    const undisturbed = part === 0 ? even[at]! : odd[at]!;
    const map = withChannel ? maps[loads[l]!.responseIndex]?.[part] : undefined;
    if (map === undefined) return Math.abs(undisturbed);
    const from = map.offsets[at]!;
    const few = Math.min(map.offsets[at + 1]!, from + parts[part]!.few);
    const told = undisturbed + product(map.values, from, few, momentsOf(l, part));
    return Math.abs(told) + map.rest[at]! * rest[l]![part]!;
  };

  const workOut = (i: number): void => {
    worked[i] = evaluation;
    for (let l = 0; l < loads.length; l++)
      for (let at = starts[i]!; at < starts[i + 1]!; at++) {
        const even = stressAt(l, 0, at);
        const odd = oneSide ? 0 : stressAt(l, 1, at);
        right.stress[l]![at] = even + odd;
        left.stress[l]![at] = even - odd;
      }
  };

  const boundAt = (i: number): void => {
    bounded[i] = evaluation;
    for (let l = 0; l < loads.length; l++)
      for (let at = starts[i]!; at < starts[i + 1]!; at++)
        most[l]![at] = mostAt(l, 0, at) + (oneSide ? 0 : mostAt(l, 1, at));
  };

  /** Bounds of one load at the points that are always looked at, as `boundAt` has them. */
  const boundAlways = (l: number): void => {
    const own = withChannel ? maps[loads[l]!.responseIndex] : undefined;
    const out = most[l]!;
    out.fill(0, 0, alwaysSize);
    for (let part = 0; part < (oneSide ? 1 : parts.length); part++) {
      const values = told[part]!;
      const undisturbed = part === 0 ? still[l]!.even : still[l]!.odd;
      if (own === undefined) values.fill(0);
      else
        multiply(
          firstMoments[loads[l]!.responseIndex]![part]!,
          alwaysSize,
          parts[part]!.few,
          momentsOf(l, part),
          values,
        );
      const length = rest[l]![part]!;
      const lengths = own === undefined ? values : own[part]!.rest;
      for (let at = 0; at < alwaysSize; at++)
        out[at]! += Math.abs(values[at]! + undisturbed[at]!) + (own === undefined ? 0 : length * lengths[at]!);
    }
    const inRows = mostInRows[l]!;
    inRows.fill(0);
    for (let row = 0; row + 1 < order.rows.length; row++)
      for (let i = order.rows[row]!; i < order.rows[row + 1]!; i++)
        for (let at = starts[i]!, c = 3 * row; at < starts[i + 1]!; at++, c++)
          // Written so that a NaN stays.
          if (!(out[at]! <= inRows[c]!)) inRows[c] = out[at]!;
  };

  return {
    sides: () => (oneSide ? rightOnly : both),
    take(edge, symmetric) {
      withChannel = edge !== undefined;
      oneSide = symmetric || !mirrored;
      evaluation++;
      if (edge !== undefined) moments.take(edge);
      for (let l = 0; l < loads.length; l++) {
        strainLoad(l, edge?.strains[l] ?? 0);
        for (let part = 0; part < (oneSide ? 1 : parts.length); part++)
          rest[l]![part] = withChannel ? lengthFrom(momentsOf(l, part), parts[part]!.few) : 0;
        boundAlways(l);
      }
      bounded.fill(evaluation, 0, always);
    },
    bound(i, factors, out) {
      if (bounded[i] !== evaluation) boundAt(i);
      addUp(most, starts[i]!, starts[i + 1]! - starts[i]!, factors, out);
    },
    boundRow: (row, factors, out) => addUp(mostInRows, 3 * row, 3, factors, out),
    combine(i, { stress }, { fixed, scaled }, held, grown) {
      if (worked[i] !== evaluation) workOut(i);
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
    takeSlopes(taken) {
      slopes = taken;
      moments.takeSlopes(taken);
    },
    addRates(i, { sign }, given, out, at) {
      for (let l = 0; l < loads.length; l++) {
        const own = maps[loads[l]!.responseIndex];
        if (own === undefined) continue;
        weights.even.fill(0);
        weights.odd.fill(0);
        for (let part = 0; part < (oneSide ? 1 : own.length); part++) {
          const { values, offsets } = own[part]!;
          const into = part === 0 ? weights.even : weights.odd;
          for (let row = starts[i]!, c = 0; row < starts[i + 1]!; row++, c++) {
            const weight = (part === 0 ? 1 : sign) * given[3 * l + components[c]!]!;
            for (let j = 0, from = offsets[row]!; from < offsets[row + 1]!; j++, from++)
              into[j]! += weight * values[from]!;
          }
        }
        moments.addRates(l, weights, table.degrees[i]!, out, at);
        const byStrain = strained[loads[l]!.responseIndex];
        if (byStrain === undefined) continue;
        let weight = 0;
        for (let row = starts[i]!, c = 0; row < starts[i + 1]!; row++, c++)
          weight += given[3 * l + components[c]!]! * byStrain[row]!;
        const rates = slopes.loads.strains(l);
        for (let p = 0; p < slopes.howMany; p++) out[at + p]! += weight * rates[p]!;
      }
    },
  };
}

/** Sums over the loads of normal, shear and (of three components) tangential stress. */
function addUp(
  stress: readonly Float64Array[],
  at: number,
  howMany: number,
  factors: Float64Array,
  out: PointStress,
): void {
  let n = 0;
  let t = 0;
  let s = 0;
  for (let l = 0; l < stress.length; l++) {
    const factor = factors[l]!;
    if (factor === 0) continue;
    n += factor * stress[l]![at]!;
    s += factor * stress[l]![at + 1]!;
    if (howMany > 2) t += factor * stress[l]![at + 2]!;
  }
  out.n = n;
  out.t = t;
  out.s = s;
}

/** The first columns of a map's first rows, filled up with zeros. */
function firstColumns({ values, offsets }: JudgedMap, rows: number, few: number): Float64Array {
  const out = new Float64Array(rows * few);
  for (let row = 0; row < rows; row++)
    for (let j = 0; j < few && offsets[row]! + j < offsets[row + 1]!; j++)
      out[row * few + j] = values[offsets[row]! + j]!;
  return out;
}

/** Sum of a row's products, from `from` on, with the first moments. */
function product(values: Float64Array, from: number, to: number, moments: Float64Array): number {
  let even = 0;
  let odd = 0;
  let j = 0;
  let at = from;
  // Two sums: one would wait for itself.
  for (; at + 1 < to; at += 2, j += 2) {
    even += values[at]! * moments[j]!;
    odd += values[at + 1]! * moments[j + 1]!;
  }
  return at < to ? even + odd + values[at]! * moments[j]! : even + odd;
}

function lengthFrom(moments: Float64Array, first: number): number {
  let sum = 0;
  for (let j = first; j < moments.length; j++) sum += moments[j]! * moments[j]!;
  return Math.sqrt(sum);
}

/** How the stresses of judged points lie in buffers. */
interface PlaceTable {
  /** Where a point's stresses begin: normal, shear and, only where it is wanted, tangential. */
  readonly starts: Int32Array;
  readonly degrees: readonly number[];
  /** Of the symmetric class, or of all fields, and of the other class. */
  readonly parts: readonly PartTable[];
}

interface PartTable {
  readonly of: FramedFields;
  /** Framed moments in all, and those that a bound begins with. */
  readonly most: number;
  readonly few: number;
}

/** One part of one response's map, rows in the order of the buffers. */
interface JudgedMap {
  readonly values: Float64Array;
  /** Where each row begins. */
  readonly offsets: Int32Array;
  /** Length of each row beyond the few moments that a bound begins with. */
  readonly rest: Float64Array;
}

/** Degree of the moments that a bound begins with: leaves 0 to a quarter of the points of random joints that could be passed over, 4 0 to a sixth, 8 a tenth. */
const boundDegree = 4;

function tableOf({ places, ...model }: ReducedModel, { points, tangential }: PlaceOrder): PlaceTable {
  const starts = new Int32Array(points.length + 1);
  points.forEach((p, i) => {
    starts[i + 1] = starts[i]! + (tangential(p.at) ? 3 : 2);
  });
  const kinds = isMirrored(model) ? (['symmetric', 'antisymmetric'] as const) : (['whole'] as const);
  return {
    starts,
    degrees: points.map((point) => judgedDegree(places, point)),
    parts: kinds.map((of) => ({
      of,
      most: framedCount(of, places.basis.degree),
      few: framedCount(of, Math.min(boundDegree, places.basis.degree)),
    })),
  };
}

function mapOf(
  { places }: ReducedModel,
  { points }: PlaceOrder,
  table: PlaceTable,
  part: number,
  all: Float64Array,
): JudgedMap {
  const { of, few } = table.parts[part]!;
  const { starts } = table;
  const map = placeMap(places, of, all);
  const rows = starts[points.length]!;
  const offsets = new Int32Array(rows + 1);
  points.forEach((_, i) => {
    for (let row = starts[i]!; row < starts[i + 1]!; row++)
      offsets[row + 1] = offsets[row]! + framedCount(of, table.degrees[i]!);
  });
  const values = new Float64Array(offsets[rows]!);
  points.forEach((point, i) => {
    for (let row = starts[i]!, c = 0; row < starts[i + 1]!; row++, c++)
      map.addRow(point, components[c]!, values.subarray(offsets[row]!, offsets[row + 1]!));
  });
  const rest = Float64Array.from({ length: rows }, (_, row) =>
    lengthFrom(values.subarray(offsets[row]!, offsets[row + 1]!), few),
  );
  return { values, offsets, rest };
}

/** Undisturbed stresses of a load, rows in the order of the buffers: of the symmetric class and of the other, or all at once. */
function stillOf(
  { atPlaces }: ActingLoad,
  places: number,
  order: PlaceOrder,
  starts: Int32Array,
  mirrored: boolean,
): { readonly even: Float64Array; readonly odd: Float64Array } {
  const [even, odd] = [0, 3 * places].map((offset) => pointsOf(atPlaces, offset, order, starts)) as [
    Float64Array,
    Float64Array,
  ];
  return mirrored ? { even, odd } : { even: even.map((value, i) => value + odd[i]!), odd: new Float64Array(0) };
}

/** Stresses at the judged points, in the order of the buffers, from those at the model's own. */
function pointsOf(values: Float64Array, offset: number, { points }: PlaceOrder, starts: Int32Array): Float64Array {
  const out = new Float64Array(starts[points.length]!);
  points.forEach((point, i) => {
    for (let c = 0; c < starts[i + 1]! - starts[i]!; c++)
      out[starts[i]! + c] = judgedStill(values, point, offset + components[c]!);
  });
  return out;
}
