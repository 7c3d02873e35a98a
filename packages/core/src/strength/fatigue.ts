import { power } from '../power.js';
import type { FailureCriterion } from './first-failure.js';
import type { CaseSurvey } from './joint-strength.js';
import type { FailurePlace } from './place-strengths.js';

/** Slopes of the stress-life lines `life = (strength / stress)^slope`. */
export interface FatigueSlopes {
  /** Of what splits under tension: the edge of the channel, fillers, plies along the channel. */
  readonly tension: number;
  /** Of everything else: interfaces, and laminates that delaminate. */
  readonly delamination: number;
}

/** Common practice for carbon and glass in epoxy, no source: replace them by the slopes of your own tests. */
export const usualFatigueSlopes: FatigueSlopes = { tension: 10, delamination: 10 };

/** Cycles to first failure of one case that acts again and again at its given size. */
export interface FatigueLife {
  readonly name: string;
  /** Cycles; below 1 the first cycle fails, Infinity: nothing is stressed towards failure. */
  readonly life: number;
  readonly place: FailurePlace | 'none';
  readonly x: number;
  readonly y: number;
  /** Life over that without channel; NaN where nothing fails without channel. */
  readonly ratio: number;
}

/**
 * Life of every case from its surveys with scaling 'all', with channel and without: every place has the line of what it fails by, the shortest life counts, and it may be elsewhere than where static failure starts.
 *
 * What the model supports is this and no more: constant amplitude, at the stress ratio at which the slopes were measured; the cure's share, which
 * does not cycle, is counted as if it did (on the safe side where it pulls); onset only, no growth, no change of stress by damage, heat or moisture,
 * no scatter of life. Ratios are far better founded than lives, and both change with the slope's power.
 */
export function fatigueLives(
  withChannel: readonly CaseSurvey[],
  without: readonly CaseSurvey[],
  slopes: FatigueSlopes = usualFatigueSlopes,
): FatigueLife[] {
  return withChannel.map((survey, c) => {
    const first = shortest(survey, slopes);
    const still = shortest(without[c]!, slopes).life;
    return { name: survey.name, ...first, ratio: still === Number.POSITIVE_INFINITY ? Number.NaN : first.life / still };
  });
}

/** Slope of the line by which a place lives. */
export function slopeOf(criterion: FailureCriterion | 'none', { tension, delamination }: FatigueSlopes): number {
  return criterion === 'splitting' ? tension : delamination;
}

function shortest({ places }: CaseSurvey, slopes: FatigueSlopes): Omit<FatigueLife, 'name' | 'ratio'> {
  let first: Omit<FatigueLife, 'name' | 'ratio'> = {
    life: Number.POSITIVE_INFINITY,
    place: 'none',
    x: Number.NaN,
    y: Number.NaN,
  };
  for (const { place, criterion, factor, x, y } of places) {
    const life = power(factor, slopeOf(criterion, slopes));
    if (life < first.life) first = { life, place, x, y };
  }
  return first;
}
