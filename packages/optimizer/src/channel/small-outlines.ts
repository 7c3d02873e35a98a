import { scoreAt } from '@lumenfront/core';
import type { Random } from '../random.js';
import type { ChannelEvaluator } from './evaluator.js';
import type { FamilyStart } from './refine.js';
import { leastForRefinement } from './refine-front.js';
import type { KnownOutline, RefinePlan } from './refined.js';
import type { FamilySearches } from './search-families.js';
import { firstValue } from './start.js';

/** Outlines that are looked at, as small as this share of where a search begins. */
const looks = 24;
const smallShare = 0.1;

/**
 * The best of small outlines anywhere in the room. A front of families holds none: larger ones cost less. But where the host is stressed least, in a cusp as a rule, a small one grows
 * into a place that descents from larger ones do not come to.
 */
export async function smallOutlines(
  evaluator: ChannelEvaluator,
  { searches }: Pick<FamilySearches, 'searches'>,
  random: Random,
  plan: RefinePlan,
): Promise<(KnownOutline & { readonly start: FamilyStart })[]> {
  if (plan.left() < leastForRefinement + looks) return [];
  const simplest = searches.reduce((a, b) => (b.family.parameters.length < a.family.parameters.length ? b : a));
  const family = searches.indexOf(simplest);
  // Evenly along the first parameter, the others by chance.
  const shareOf = (k: number, parameter: number) => (parameter === 0 ? (k + 0.5) / looks : random.uniform());
  const outlines = Array.from({ length: looks }, (_, k) =>
    Float64Array.from(simplest.family.parameters, (one, p) =>
      firstValue(one, one.start === 'small' ? smallShare : shareOf(k, p)),
    ),
  );
  const scores = await evaluator.score(family, outlines);
  plan.note({ reached: [], stop: 'small outlines looked at', evaluations: looks });
  const admissible = scores.flatMap((score, k) =>
    [scoreAt.room, scoreAt.edgeRadius, scoreAt.crossing, scoreAt.strength].every((at) => score[at]! <= 0) &&
    score[scoreAt.size]! > 0
      ? [{ start: { family, x: outlines[k]! }, size: score[scoreAt.size]!, cost: score[scoreAt.cost]! }]
      : [],
  );
  return admissible.length === 0 ? [] : [admissible.reduce((a, b) => (b.cost < a.cost ? b : a))];
}
