import type { CurvatureOutline, EdgeProfile } from '@lumenfront/core';

/** What an outline is to keep, and in what its moves are counted. */
export interface OutlineLimits {
  /** Mean radius of the outline at the start, mm: the unit of moves. */
  readonly unit: number;
  /** Largest curvature of either sign, 1/mm. */
  readonly bound: number;
  /** Least area, mm2. */
  readonly area: number;
  /** Index of the first coefficient among the values. */
  readonly first: number;
  /** Change of every value that goes with a move of a mean radius: positions and half the length move as far, a turn as far around, coefficients relatively further. */
  readonly units: Float64Array;
  /** Ends of the change of every value, in units, within a radius of trust (mean radii); coefficients stay within `bound`. */
  endsWithin(radius: number, values: Float64Array): { readonly lower: Float64Array; readonly upper: Float64Array };
  /** The worst that a profile lacks: of the area as a share, of the room in mean radii, weighted, of the strength as a share; 0 where it keeps all. */
  lackOf(profile: EdgeProfile): number;
}

/** What lacks, against the cost as a share of that at the start: above what more area costs, or it would be traded. It is raised where that is seen. */
export const firstPenalty = 10;
/** Kept from every limit, so that an outline that has come to it is admissible after rounding and between the nodes. */
export const margin = 0.0005;
/** A missing mean radius of room counts as so many areas. */
export const roomWeight = 5;
const hair = 1e-9;

export function limitsOf(
  { lengthAt }: CurvatureOutline,
  start: Float64Array,
  area: number,
  edgeRadius: number,
): OutlineLimits {
  const unit = start[lengthAt]! / (2 * Math.PI);
  const bound = edgeRadius > 0 ? 1 / (edgeRadius * (1 + margin)) : Number.POSITIVE_INFINITY;
  const first = lengthAt + 1;
  const turnAt = lengthAt === 3 ? 2 : -1;
  const unitOf = (value: number): number => (10 * (Math.abs(value) * unit + 1)) / unit;
  const units = start.map((value, k) => {
    if (k >= first) return unitOf(value);
    if (k === turnAt) return 180 / Math.PI;
    return k === lengthAt ? 2 * unit : unit;
  });
  return {
    unit,
    bound,
    area,
    first,
    units,
    endsWithin(radius, values) {
      const upper = values.map((value, k) => (k < first ? radius : (radius * unitOf(value)) / units[k]!));
      const lower = upper.map((box) => -box);
      for (let k = first; k < values.length; k++) {
        upper[k] = Math.min(upper[k]!, Math.max(hair, (bound - values[k]!) / units[k]!));
        lower[k] = Math.max(lower[k]!, Math.min(-hair, (-bound - values[k]!) / units[k]!));
      }
      return { lower, upper };
    },
    lackOf(profile) {
      let lack = 1 + margin - profile.area / area;
      for (const excess of profile.limits) lack = Math.max(lack, excess + margin);
      for (const room of profile.room) lack = Math.max(lack, roomWeight * (margin - room / unit));
      return Math.max(0, lack);
    },
  };
}
