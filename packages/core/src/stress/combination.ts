import { createHoopExtremes, type HoopExtremes, hoopRule } from '../edge/index.js';
import type { ReducedModel } from '../host/index.js';
import type { ActingLoad } from './acting-loads.js';
import type { SolvedChannel, SolvedEdge } from './solved-edge.js';

/** The loads that act, and the basis, whose length is taken when it is needed. */
export interface Acting {
  readonly loads: readonly ActingLoad[];
  readonly basis: ReducedModel['basis'];
}

/** What a combination of loads is worked out in on one edge, and over how many of the nodes its extremes are looked for. */
interface Side {
  /** Which edge of `SolvedEdge.each`. */
  readonly edge: number;
  /** -1: on the left, at the images of the nodes. */
  readonly sign: 1 | -1;
  readonly slope: Float64Array;
  readonly hoop: Float64Array;
  readonly seen: number;
  readonly extremes: HoopExtremes;
  /** Half way from each node to the next, where that is wanted. */
  readonly halfway: Float64Array | undefined;
}

/** The edges on which a combination differs. */
export type Combination = readonly Side[];

/** Of the edges `each`, both sides where they differ. `hoop` and `halfway` hold one value a node, side by side. The sides share `slope`. */
export function createCombination(
  each: readonly Pick<SolvedChannel, 'bothSides'>[],
  slope: Float64Array,
  seen: number,
  [hoop, halfway]: readonly Float64Array[] = [],
): Combination {
  const count = slope.length / 2;
  const sides = each.flatMap(({ bothSides }, edge) =>
    ([1, -1] as const).slice(0, bothSides ? 2 : 1).map((sign) => ({ edge, sign })),
  );
  return sides.map((side, n) => ({
    ...side,
    ...{ slope, seen, extremes: createHoopExtremes() },
    hoop: hoop?.subarray(n * count, (n + 1) * count) ?? new Float64Array(count),
    halfway: halfway?.subarray(n * count, n * count + seen),
  }));
}

/** Factor of a load on one side: the left edge bears an antisymmetric load with the other sign. */
const factorOn = (sign: 1 | -1, { symmetric }: ActingLoad, factor: number): number =>
  symmetric || sign === 1 ? factor : -factor;

/** Superposes the loads into a combination and finds the extremes of their sum, over all of its sides. */
export function combineLoads(
  { each }: Pick<SolvedEdge, 'each'>,
  { loads, basis: { length } }: Acting,
  factors: ArrayLike<number>,
  sides: Combination,
  out: HoopExtremes,
): void {
  const rule = hoopRule(each[0]!.nodes.count);
  for (let n = 0; n < sides.length; n++) {
    const side = sides[n]!;
    const { sign, slope, hoop, seen, extremes } = side;
    const { nodes, slopes } = each[side.edge]!;
    slope.fill(0);
    let offset = 0;
    for (let l = 0; l < loads.length; l++) {
      const weight = factorOn(sign, loads[l]!, factors[l]!);
      if (weight === 0) continue;
      const part = slopes[l]!;
      for (let i = 0; i < slope.length; i++) slope[i]! += weight * part[i]!;
      offset += weight * loads[l]!.offset;
    }
    rule.take(nodes, slope, length, offset);
    rule.atNodes(hoop);
    rule.extremes(hoop, extremes, seen);
    if (side.halfway !== undefined) rule.halfway(side.halfway);
    if (n === 0 || extremes.peak > out.peak) {
      out.peak = extremes.peak;
      out.peakX = sign * extremes.peakX;
      out.peakY = extremes.peakY;
    }
    out.least = n === 0 ? extremes.least : Math.min(out.least, extremes.least);
  }
}

/** Writes the sum of the loads' rates by their factors, motion by motion, edge by edge; of both sides, those of the left one behind those of the right one. */
export function writeCaseRates(
  byLoad: readonly Float64Array[],
  { loads }: Acting,
  factors: ArrayLike<number>,
  {
    rows,
    howMany,
    bothSides,
  }: { readonly rows: readonly number[]; readonly howMany: number; readonly bothSides: boolean },
  out: Float64Array,
): void {
  out.fill(0);
  const sides = bothSides ? 2 : 1;
  const all = rows.reduce((a, b) => a + b);
  for (let l = 0; l < loads.length; l++)
    for (let side = 0; side < sides; side++) {
      const weight = factorOn(side === 0 ? 1 : -1, loads[l]!, factors[l]!);
      const part = byLoad[l]!;
      if (weight === 0) continue;
      for (let p = 0; p < howMany; p++)
        for (let k = 0, before = 0; k < rows.length; before += rows[k]!, k++) {
          const from = p * all + before;
          const to = sides * from + side * rows[k]!;
          for (let j = 0; j < rows[k]!; j++) out[to + j]! += weight * part[from + j]!;
        }
    }
}
