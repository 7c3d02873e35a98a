import { scoreAt, slopesCost } from '@lumenfront/core';
import type { Random } from '../random.js';
import type { ChannelEvaluator } from './evaluator.js';
import { sizeOf } from './family-space.js';
import type { RefinedOutline, RefineStart } from './refine.js';
import { type Refined, type RefinePlan, refinedOf } from './refined.js';
import type { FamilySearches } from './search-families.js';
import { firstOutlines } from './start.js';

/** Areas that are asked for, as a share of that of an outline to begin from. */
const share = 0.5;
/** Outlines of the simplest family that are looked at, and sizes of which the best one is a start. */
const looks = 200;
const sizes = 8;
/** Form and slopes of the descents. */
const pieces = 24;
const slopes = 20;
const radius = 0.05;
const most = slopes * (slopesCost(pieces + 2) + 4);
/** Rounds in which those that lack least go on. */
const rounds = 4;
const goingOn = 3;

interface Wanted {
  readonly start: RefineStart;
  readonly area: number;
}

/**
 * Outlines that keep every limit can be too rare for families to meet: descents with slopes, whose first aim is what lacks, from what came nearest in each
 * family and from simple outlines of all sizes; those that lack least go on until one lacks nothing.
 */
export async function firstAdmissible(
  { searches }: FamilySearches,
  evaluator: ChannelEvaluator,
  random: Random,
  plan: RefinePlan,
): Promise<Refined[]> {
  const nearest = searches.flatMap(({ nearest }, family) =>
    // One that crosses itself has no size.
    nearest === undefined || !(sizeOf(nearest) > 0)
      ? []
      : [{ start: { family, x: nearest.x }, area: share * sizeOf(nearest) }],
  );
  let wanted = [...nearest, ...(await simpleStarts(evaluator, searches, random, plan))];
  const reached: (RefinedOutline & { readonly wanted: number })[] = [];
  for (let round = 0; round < rounds && plan.goOn(); round++) {
    wanted = wanted.slice(0, Math.floor(plan.left() / most));
    if (wanted.length === 0) break;
    const results = await plan.refine(
      wanted.map(({ start, area }) => ({
        start,
        areas: [area],
        // What lacks little must not lose it again to a fit.
        pieces: round === 0 ? pieces : undefined,
        radius,
        slopes,
        slopesBeyond: slopes,
        beside: [[]],
        most,
      })),
    );
    const found: Refined[] = [];
    results.forEach((result, k) => {
      plan.note(result);
      found.push(...refinedOf(result));
      reached.push(...result.reached.map((one) => ({ ...one, wanted: wanted[k]!.area })));
    });
    if (found.length > 0) return found;
    reached.sort((a, b) => a.violation - b.violation);
    wanted = reached.slice(0, goingOn).map(({ design, wanted: area }) => ({ start: design, area }));
  }
  return [];
}

/** Of random outlines of the family with the fewest parameters that keep their walls, the one that misses least of the other limits, size by size. */
async function simpleStarts(
  evaluator: ChannelEvaluator,
  searches: FamilySearches['searches'],
  random: Random,
  plan: RefinePlan,
): Promise<Wanted[]> {
  const simplest = searches.reduce((a, b) => (b.family.parameters.length < a.family.parameters.length ? b : a));
  const family = searches.indexOf(simplest);
  const outlines = firstOutlines(simplest.family, looks, random);
  const scores = await evaluator.score(family, outlines);
  plan.note({ reached: [], stop: 'looked around', evaluations: looks });
  const fits = scores
    .map((score, k) => ({ x: outlines[k]!, size: score[scoreAt.size]!, score }))
    .filter(({ score }) => [scoreAt.room, scoreAt.edgeRadius, scoreAt.crossing].every((at) => score[at]! <= 0));
  const largest = Math.max(...fits.map(({ size }) => size));
  const best = new Map<number, (typeof fits)[number]>();
  for (const one of fits) {
    const place = Math.ceil((sizes * one.size) / largest);
    const rival = best.get(place);
    if (rival === undefined || one.score[scoreAt.strength]! < rival.score[scoreAt.strength]!) best.set(place, one);
  }
  return [...best.values()].map(({ x, size }) => ({ start: { family, x }, area: share * size }));
}
