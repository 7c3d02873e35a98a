import type { CrackRelease } from '../host/index.js';
import type { CaseFactors } from './case-split.js';

/** What a crack between plies withstands, N/mm (kJ/m^2). */
export interface Toughness {
  readonly modeI: number;
  readonly modeII: number;
}

/** What a crack sets free under loads with the given factors, N/mm. */
export interface ReleasedEnergy extends Toughness {
  /** Its faces press against each other: it does not open, and mode I counts for nothing. */
  readonly closed: boolean;
}

/** `factors`: of the loads, as `release` has them. */
export function releasedEnergy({ opening, sliding, gap }: CrackRelease, factors: Float64Array): ReleasedEnergy {
  const closed = weighted(gap, factors) < 0;
  return {
    modeI: closed ? 0 : Math.max(0, twice(opening, factors, factors)),
    modeII: Math.max(0, twice(sliding, factors, factors)),
    closed,
  };
}

/**
 * Load factor at which a crack grows: `G_I / G_Ic + G_II / G_IIc = 1`, linear in both modes (common practice for interlaminar cracks; Whitcomb, NASA TM-86301
 * (1984) uses it), where a closed crack has no G_I. What is held (the cure) plus `factor` times what grows. 0 where what is held alone makes it grow, Infinity where no factor does.
 */
export function growthFactor(release: CrackRelease, { fixed, scaled }: CaseFactors, toughness: Toughness): number {
  const { opening, sliding, gap } = release;
  /** Share of the toughness as c + b f + a f^2, open or closed. */
  const share = (isOpen: boolean) => {
    const of = (one: Float64Array, other: Float64Array) =>
      (isOpen ? twice(opening, one, other) / toughness.modeI : 0) + twice(sliding, one, other) / toughness.modeII;
    return { c: of(fixed, fixed), b: of(fixed, scaled) + of(scaled, fixed), a: of(scaled, scaled) };
  };
  const [gap0, gap1] = [weighted(gap, fixed), weighted(gap, scaled)];
  const turns = -gap0 / gap1;
  const change = turns > 0 && Number.isFinite(turns) ? turns : Number.POSITIVE_INFINITY;
  const startsOpen = gap0 > 0 || (gap0 === 0 && gap1 > 0);
  const before = leastReaching(share(startsOpen), 0);
  if (before <= change) return before;
  return leastReaching(share(!startsOpen), change);
}

/** Least f from `from` on at which `c + b f + a f^2` is 1 or more. */
function leastReaching(
  { c, b, a }: { readonly c: number; readonly b: number; readonly a: number },
  from: number,
): number {
  if (!Number.isFinite(from)) return Number.POSITIVE_INFINITY;
  const at = c + (b + a * from) * from;
  if (at >= 1) return from;
  const slope = b + 2 * a * from;
  // at + slope d + a d^2 = 1, d > 0.
  const square = slope * slope + 4 * a * (1 - at);
  if (square < 0) return Number.POSITIVE_INFINITY;
  const distance = (2 * (1 - at)) / (slope + Math.sqrt(square));
  return distance > 0 ? from + distance : Number.POSITIVE_INFINITY;
}

function weighted(values: Float64Array, factors: Float64Array): number {
  return factors.reduce((sum, factor, l) => sum + factor * values[l]!, 0);
}

function twice(form: Float64Array, one: Float64Array, other: Float64Array): number {
  const count = one.length;
  return one.reduce((sum, factor, i) => sum + factor * weighted(form.subarray(i * count, (i + 1) * count), other), 0);
}
