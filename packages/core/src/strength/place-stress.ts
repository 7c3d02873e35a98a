import { isMirrored, type ReducedModel } from '../host/index.js';
import type { ActingLoad, CaseSlopes, SolvedEdge } from '../stress/index.js';
import type { CaseFactors } from './case-split.js';
import type { PointStress } from './criteria.js';
import { createPlaceBounds } from './place-bounds.js';
import { createPlaceMoments, type FramedMoments, type PlaceMoments } from './place-moments.js';
import { components, type JudgedMap, type PlaceOrder, type PlaceTable, placeTable } from './place-table.js';
import { product, type TakenOutline, twoProducts } from './taken-outline.js';

/** Stresses of every load on one side of the section: `sign` 1 the right one, or all of a host without mirror symmetry; -1 the left one in mirrored axes. */
export interface SectionSide {
  readonly sign: 1 | -1;
  /** One array per load. */
  readonly stress: readonly Float64Array[];
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

export function createPlaceStress(model: ReducedModel, loads: readonly ActingLoad[], order: PlaceOrder): PlaceStress {
  const mirrored = isMirrored(model);
  const table = placeTable(model, loads, order);
  const { starts } = table;
  const moments = createPlaceMoments(model, loads);
  const taken: TakenOutline = {
    ...{ withChannel: false, oneSide: false, evaluation: 0 },
    framed: moments.framed,
    strains: new Float64Array(loads.length),
  };
  const bounds = createPlaceBounds(table, loads, order, taken);
  const right: SectionSide = { sign: 1, stress: loads.map(() => new Float64Array(starts.at(-1)!)) };
  const left: SectionSide = { sign: -1, stress: loads.map(() => new Float64Array(starts.at(-1)!)) };
  const rightOnly = [right];
  const both = [right, left];
  const workOut = createWorkOut(table, loads, taken, both);
  /** Evaluations in which a point's stress was worked out. */
  const worked = new Int32Array(order.points.length);
  const addRates = createRates(table, loads, taken, moments);
  let slopes: CaseSlopes;

  return {
    sides: () => (taken.oneSide ? rightOnly : both),
    take(edge, symmetric) {
      taken.withChannel = edge !== undefined;
      taken.oneSide = symmetric || !mirrored;
      taken.evaluation++;
      if (edge === undefined) taken.strains.fill(0);
      else {
        moments.take(edge);
        taken.strains.set(edge.strains);
      }
      bounds.take();
    },
    bound: bounds.bound,
    boundRow: bounds.boundRow,
    combine(i, { stress }, { fixed, scaled }, held, grown) {
      if (worked[i] !== taken.evaluation) {
        worked[i] = taken.evaluation;
        workOut(i);
      }
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
    takeSlopes(given) {
      slopes = given;
      moments.takeSlopes(given);
    },
    addRates(i, { sign }, weights, out, at) {
      addRates(i, sign, { weights, slopes }, out, at);
    },
  };
}

/** Works out a point's stress on both sides; loads of one response by turns, two to a reading of its map. */
function createWorkOut(
  { starts, maps, still, strained }: PlaceTable,
  loads: readonly ActingLoad[],
  taken: TakenOutline,
  [right, left]: readonly SectionSide[],
): (i: number) => void {
  const pairs = loadPairs(loads);
  const [even, odd] = [new Float64Array(2), new Float64Array(2)];

  /** Sums of a pair of loads in one part of the map at a row. */
  const sum = (
    map: JudgedMap,
    at: number,
    [first, second]: LoadPair,
    part: 'even' | 'odd',
    out: Float64Array,
  ): void => {
    const moments = taken.framed[first]![part];
    if (second === undefined) out[0] = product(map.values, map.offsets[at]!, map.offsets[at + 1]!, moments);
    else twoProducts(map, at, moments, taken.framed[second]![part], out);
  };

  return (i) => {
    for (const pair of pairs) {
      const { responseIndex } = loads[pair[0]]!;
      const own = taken.withChannel ? maps[responseIndex] : undefined;
      const byStrain = strained[responseIndex];
      for (let at = starts[i]!; at < starts[i + 1]!; at++) {
        if (own !== undefined) sum(own[0]!, at, pair, 'even', even);
        if (own !== undefined && !taken.oneSide) sum(own[1]!, at, pair, 'odd', odd);
        for (let k = 0; k < pair.length; k++) {
          const l = pair[k]!;
          const strain = byStrain === undefined ? 0 : taken.strains[l]! * byStrain[at]!;
          const symmetric = still[l]!.even[at]! + strain + (own === undefined ? 0 : even[k]!);
          const other = taken.oneSide ? 0 : still[l]!.odd[at]! + (own === undefined ? 0 : odd[k]!);
          right!.stress[l]![at] = symmetric + other;
          left!.stress[l]![at] = symmetric - other;
        }
      }
    }
  };
}

/** One load or two of the same response. */
type LoadPair = readonly [first: number, second?: number];

function loadPairs(loads: readonly ActingLoad[]): LoadPair[] {
  const byResponse = new Map<number, number[]>();
  loads.forEach(({ responseIndex }, l) => {
    byResponse.set(responseIndex, [...(byResponse.get(responseIndex) ?? []), l]);
  });
  return [...byResponse.values()].flatMap((of) =>
    of.flatMap((first, k): LoadPair[] => {
      if (k % 2 === 1) return [];
      const second = of[k + 1];
      return [second === undefined ? [first] : [first, second]];
    }),
  );
}

/** Weights of normal, tangential and shear stress, load by load, and the slopes that were taken last. */
interface WeightedSlopes {
  readonly weights: Float64Array;
  readonly slopes: CaseSlopes;
}

/** As `PlaceStress.addRates`, on the side of a sign. */
function createRates(
  { starts, parts, degrees, maps, strained }: PlaceTable,
  loads: readonly ActingLoad[],
  taken: TakenOutline,
  moments: PlaceMoments,
): (i: number, sign: 1 | -1, given: WeightedSlopes, out: Float64Array, at: number) => void {
  const ofMoments: FramedMoments = {
    even: new Float64Array(parts[0]!.most),
    odd: new Float64Array(parts[1]?.most ?? 0),
  };

  /** Weights of a load's moments. */
  const weigh = (i: number, sign: 1 | -1, l: number, given: Float64Array): void => {
    const own = maps[loads[l]!.responseIndex]!;
    ofMoments.even.fill(0);
    ofMoments.odd.fill(0);
    for (let part = 0; part < (taken.oneSide ? 1 : own.length); part++) {
      const { values, offsets } = own[part]!;
      const into = part === 0 ? ofMoments.even : ofMoments.odd;
      for (let row = starts[i]!, c = 0; row < starts[i + 1]!; row++, c++) {
        const weight = (part === 0 ? 1 : sign) * given[3 * l + components[c]!]!;
        for (let j = 0, from = offsets[row]!; from < offsets[row + 1]!; j++, from++) into[j]! += weight * values[from]!;
      }
    }
  };

  return (i, sign, { weights, slopes }, out, at) => {
    for (let l = 0; l < loads.length; l++) {
      const { responseIndex } = loads[l]!;
      if (maps[responseIndex] === undefined) continue;
      weigh(i, sign, l, weights);
      moments.addRates(l, ofMoments, degrees[i]!, out, at);
      const byStrain = strained[responseIndex];
      if (byStrain === undefined) continue;
      let weight = 0;
      for (let row = starts[i]!, c = 0; row < starts[i + 1]!; row++, c++)
        weight += weights[3 * l + components[c]!]! * byStrain[row]!;
      const rates = slopes.loads.strains(l);
      for (let p = 0; p < slopes.howMany; p++) out[at + p]! += weight * rates[p]!;
    }
  };
}
