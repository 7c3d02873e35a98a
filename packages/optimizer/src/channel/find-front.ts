import { type ChannelTask, curvatureFamily, curvatureParameters, hasSlopes, type SearchRun } from '@lumenfront/core';
import { bestBySize, hypervolume, thinOut } from '../front/index.js';
import { randomFrom } from '../random.js';
import { checkedEvaluator } from './checked-evaluator.js';
import type { ChannelEvaluator } from './evaluator.js';
import { knownTo, wideBudget } from './families-known.js';
import type { FamilySearch } from './family-search.js';
import { foundChannel, nearestChannel } from './family-space.js';
import { firstAdmissible } from './first-admissible.js';
import { followFront } from './follow-front.js';
import { mirroredFront } from './mirrored-front.js';
import { mayMirror } from './mirrored-task.js';
import { leastForRefinement, refineFront } from './refine-front.js';
import type { Refined, RefinePlan } from './refined.js';
import {
  type ChannelFront,
  type FoundChannel,
  type NearestChannel,
  type SearchOptions,
  type SearchStop,
  searchStop,
} from './result.js';
import { type FamilySearches, searchFamilies } from './search-families.js';
import { smallOutlines } from './small-outlines.js';

/**
 * Searches the front of the evaluator's task, by its objective, over all its families (see `searchFamilies`); then outlines of free curvature
 * bring it down, place by place (see `refineFront`), where the task asks for splines, exact slopes are known of all that it asks, and the budget
 * is worth it.
 */
export async function findFront(given: ChannelEvaluator, options: SearchOptions): Promise<ChannelFront> {
  const evaluator = checkedEvaluator(given);
  const refines = isRefined(evaluator.task, options.evaluations);
  const { evaluations } = options;
  const budget = refines ? { evaluations: wideBudget(evaluations), onlyWide: true } : { evaluations };
  const all = await searchFamilies(evaluator, options, budget);
  const runs: SearchRun[] = [];
  const refined = refines ? await refinedFront(all, evaluator, options, refinePlan(all, evaluator, options, runs)) : [];
  return frontOf(all, refined, runs, searchStop(options));
}

/** Whether outlines of free curvature serve a task, and a budget is worth it. */
export function isRefined(task: ChannelTask, evaluations: number): boolean {
  const { channel } = task;
  return (
    evaluations - wideBudget(evaluations) >= leastForRefinement &&
    channel.families.includes(curvatureFamily) &&
    hasSlopes(task)
  );
}

/** A refinement with what the families have left of the budget; adds its runs to `runs`. */
export function refinePlan(
  { common, spent }: FamilySearches,
  evaluator: ChannelEvaluator,
  { evaluations, signal, onProgress }: SearchOptions,
  runs: SearchRun[],
): RefinePlan {
  const before = spent();
  let used = 0;
  return {
    refine: (requests) => evaluator.refine(requests),
    left: () => evaluations - before - used,
    note({ stop, evaluations }) {
      used += evaluations;
      runs.push({ family: curvatureFamily, method: 'refinement', stop, evaluations });
    },
    goOn() {
      onProgress?.({ evaluations: before + used, designs: common.front().length });
      return signal?.aborted !== true;
    },
  };
}

async function refinedFront(
  all: FamilySearches,
  evaluator: ChannelEvaluator,
  options: SearchOptions,
  plan: RefinePlan,
): Promise<readonly Refined[]> {
  const refined = await refinedFrom(all, evaluator, options, plan);
  if (!plan.goOn() || refined.length === 0) return refined;
  const { found, stop } = await followFront(refined, plan);
  // Why the front as a whole was left as it is.
  plan.note({ reached: [], stop, evaluations: 0 });
  return found;
}

/** Refines what the families have found, or what came nearest; mirror-symmetric outlines first, where they may be the best of all. */
export async function refinedFrom(
  all: FamilySearches,
  evaluator: ChannelEvaluator,
  options: SearchOptions,
  plan: RefinePlan,
): Promise<Refined[]> {
  const { task } = evaluator;
  const symmetric = mayMirror(task) ? await mirroredFront(task, options, plan) : [];
  const known = knownTo(all);
  if (known.length > 0) {
    const small = await smallOutlines(evaluator, all, randomFrom(options.seed).split('small outlines'), plan);
    return [...symmetric, ...(await refineFront(known, small, plan))];
  }
  const first = await firstAdmissible(all, evaluator, randomFrom(options.seed).split('first admissible'), plan);
  const begun = first.map(({ design, size, cost }) => ({ start: design, size, cost }));
  return [...symmetric, ...first, ...(await refineFront(begun, [], plan))];
}

function frontOf(
  { searches, common, spent }: FamilySearches,
  refined: readonly Refined[],
  runs: readonly SearchRun[],
  stop: SearchStop,
): ChannelFront {
  const free = refined.map(refinedChannel);
  const front = bySize([...common.front().map((member) => foundChannel(member.owner.family, member)), ...free]);
  const designs = told(front, mostTold);
  // What is evaluated for a report is told in both places.
  const left = new Set(front);
  for (const one of designs) left.delete(one);
  const freeTold = free.filter((one) => !left.has(one));
  const referencePoint = [0, 1.1 * Math.max(0, ...designs.map(({ cost }) => cost))] as const;
  return {
    designs,
    families: Object.fromEntries(
      searches.map((search) => [
        search.family.name,
        told(
          bySize([
            ...search.front.front().map((member) => foundChannel(search.family, member)),
            ...(search.family.name === curvatureFamily ? freeTold : []),
          ]),
          mostOfFamily,
        ),
      ]),
    ),
    stop,
    evaluations: spent() + runs.reduce((sum, { evaluations }) => sum + evaluations, 0),
    runs: [...searches.flatMap((search) => search.runs), ...runs],
    hypervolume: hypervolume(
      designs.map(({ size, cost }) => [-size, cost]),
      [-referencePoint[0], referencePoint[1]],
    ),
    referencePoint,
    nearest: designs.length === 0 ? nearestOf(searches) : undefined,
  };
}

/** Designs of a front that are told, and of each family's own, which only tells how families compare. Each is evaluated anew with the nodes that it needs. */
const mostTold = 300;
const mostOfFamily = 120;

/** Of a front, those that together hold most of the hypervolume. */
function told(front: readonly FoundChannel[], most: number): FoundChannel[] {
  return thinOut(
    front.map(({ size, cost }) => [-size, cost]),
    most,
  ).map((i) => front[i]!);
}

function refinedChannel({ design, size, cost, locallyOptimalWithin }: Refined): FoundChannel {
  const certificate = Number.isFinite(locallyOptimalWithin) && { locallyOptimalWithin };
  return { family: curvatureFamily, parameters: curvatureParameters(design), size, cost, ...certificate };
}

const bySize = (designs: readonly FoundChannel[]): FoundChannel[] =>
  bestBySize(
    designs,
    ({ size }) => size,
    ({ cost }) => cost,
  );

/** What came nearest to being admissible, over all families. */
export function nearestOf(searches: readonly FamilySearch[]): NearestChannel | undefined {
  const tried = searches.flatMap(({ family, nearest }) => (nearest === undefined ? [] : [{ family, nearest }]));
  if (tried.length === 0) return undefined;
  const { family, nearest } = tried.reduce((a, b) => (b.nearest.violation < a.nearest.violation ? b : a));
  return nearestChannel(family, nearest);
}
