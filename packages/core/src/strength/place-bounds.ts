import { multiply } from '../linear/index.js';
import type { ActingLoad } from '../stress/index.js';
import type { PointStress } from './criteria.js';
import type { PlaceStress } from './place-stress.js';
import { type JudgedMap, lengthFrom, type PlaceOrder, type PlaceTable } from './place-table.js';
import { product, type TakenOutline } from './taken-outline.js';

/** Bounds of stresses at places, of the outline that was taken last. */
export interface PlaceBounds extends Pick<PlaceStress, 'bound' | 'boundRow'> {
  /** Takes what there is of an outline by now. */
  take(): void;
}

export function createPlaceBounds(
  { starts, parts, maps, still, strained }: PlaceTable,
  loads: readonly ActingLoad[],
  order: PlaceOrder,
  taken: TakenOutline,
): PlaceBounds {
  const always = order.rows.at(-1)!;
  const alwaysSize = starts[always]!;
  const firstMoments = maps.map((own) => own.map((map, part) => firstColumns(map, alwaysSize, parts[part]!.few)));
  const told = new Float64Array(alwaysSize);
  const most = loads.map(() => new Float64Array(starts.at(-1)!));
  /** Of each row, normal, shear and tangential. */
  const mostInRows = loads.map(() => new Float64Array(3 * order.rows.length));
  /** Lengths of the moments beyond the first few, load by load and part by part. */
  const rest = loads.map(() => new Float64Array(2));
  /** Evaluations in which a point's bound was worked out. */
  const bounded = new Int32Array(order.points.length);

  const mapsOf = (l: number): readonly JudgedMap[] | undefined =>
    taken.withChannel ? maps[loads[l]!.responseIndex] : undefined;
  const momentsOf = (l: number, part: number) => (part === 0 ? taken.framed[l]!.even : taken.framed[l]!.odd);
  const partsTaken = () => (taken.oneSide ? 1 : parts.length);

  /** What a part of a load's stress does not exceed at a row of the buffers. */
  const mostAt = (l: number, part: number, at: number): number => {
    const undisturbed =
      part === 0
        ? still[l]!.even[at]! + taken.strains[l]! * (strained[loads[l]!.responseIndex]?.[at] ?? 0)
        : still[l]!.odd[at]!;
    const map = mapsOf(l)?.[part];
    if (map === undefined) return Math.abs(undisturbed);
    const from = map.offsets[at]!;
    const few = Math.min(map.offsets[at + 1]!, from + parts[part]!.few);
    return Math.abs(undisturbed + product(map.values, from, few, momentsOf(l, part))) + map.rest[at]! * rest[l]![part]!;
  };

  const boundAt = (i: number): void => {
    bounded[i] = taken.evaluation;
    for (let l = 0; l < loads.length; l++)
      for (let at = starts[i]!; at < starts[i + 1]!; at++)
        most[l]![at] = mostAt(l, 0, at) + (taken.oneSide ? 0 : mostAt(l, 1, at));
  };

  /** Of one load, as `boundAt` has them, at the points that are always looked at. */
  const boundAlways = (l: number): void => {
    const own = mapsOf(l);
    const { responseIndex } = loads[l]!;
    const out = most[l]!;
    out.fill(0, 0, alwaysSize);
    for (let part = 0; part < partsTaken(); part++) {
      const undisturbed = part === 0 ? still[l]!.even : still[l]!.odd;
      if (own === undefined) told.fill(0);
      else multiply(firstMoments[responseIndex]![part]!, alwaysSize, parts[part]!.few, momentsOf(l, part), told);
      const strain = part === 0 ? taken.strains[l]! : 0;
      const byStrain = strained[responseIndex];
      if (strain !== 0 && byStrain !== undefined)
        for (let at = 0; at < alwaysSize; at++) told[at]! += strain * byStrain[at]!;
      const length = rest[l]![part]!;
      const lengths = own === undefined ? told : own[part]!.rest;
      for (let at = 0; at < alwaysSize; at++)
        out[at]! += Math.abs(told[at]! + undisturbed[at]!) + (own === undefined ? 0 : length * lengths[at]!);
    }
  };

  const boundRows = (l: number): void => {
    const out = most[l]!;
    const inRows = mostInRows[l]!;
    inRows.fill(0);
    for (let row = 0; row + 1 < order.rows.length; row++)
      for (let i = order.rows[row]!; i < order.rows[row + 1]!; i++)
        for (let at = starts[i]!, c = 3 * row; at < starts[i + 1]!; at++, c++)
          // Written so that a NaN stays.
          if (!(out[at]! <= inRows[c]!)) inRows[c] = out[at]!;
  };

  return {
    take() {
      for (let l = 0; l < loads.length; l++) {
        for (let part = 0; part < partsTaken(); part++)
          rest[l]![part] = taken.withChannel ? lengthFrom(momentsOf(l, part), parts[part]!.few) : 0;
        boundAlways(l);
        boundRows(l);
      }
      bounded.fill(taken.evaluation, 0, always);
    },
    bound(i, factors, out) {
      if (bounded[i] !== taken.evaluation) boundAt(i);
      addUp(most, starts[i]!, starts[i + 1]! - starts[i]!, factors, out);
    },
    boundRow: (row, factors, out) => addUp(mostInRows, 3 * row, 3, factors, out),
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
