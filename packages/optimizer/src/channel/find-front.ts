import {
  type ChannelTask,
  curvatureFamily,
  curvatureParameters,
  limitsStrength,
  type SearchRun,
} from '@lumenfront/core';
import { bestBySize, hypervolume } from '../front/index.js';
import { checkedEvaluator } from './checked-evaluator.js';
import type { ChannelEvaluator } from './evaluator.js';
import type { FamilySearch } from './family-search.js';
import { costOf, foundChannel, nearestChannel, sizeOf } from './family-space.js';
import { leastForRefinement, type Refined, refineFront } from './refine-front.js';
import {
  type ChannelFront,
  type FoundChannel,
  type NearestChannel,
  type SearchOptions,
  type SearchStop,
  searchStop,
} from './result.js';
import { type FamilySearches, searchFamilies } from './search-families.js';

/** Share of the budget of a search that refines its front, which goes to the families; the rest refines what they found. */
const wideShare = 0.25;

/**
 * Searches the front of the evaluator's task, by its objective, over all its families (see `searchFamilies`); then outlines of free curvature
 * bring it down, place by place (see `refineFront`), where the task asks for splines, mirror-symmetric, and trades area against the peak, and
 * the budget is worth it.
 */
export async function findFront(given: ChannelEvaluator, options: SearchOptions): Promise<ChannelFront> {
  const evaluator = checkedEvaluator(given);
  const refines = isRefined(evaluator.task) && (1 - wideShare) * options.evaluations >= leastForRefinement;
  const share = refines ? wideShare : 1;
  const all = await searchFamilies(evaluator, options, Math.floor(share * options.evaluations));
  const runs: SearchRun[] = [];
  const refined = refines ? await refinedFront(all, evaluator, options, runs) : [];
  return frontOf(all, refined, runs, searchStop(options));
}

function isRefined(task: ChannelTask): boolean {
  const { channel, objective } = task;
  return (
    channel.families.includes(curvatureFamily) &&
    channel.mirror &&
    objective.size === 'area' &&
    objective.cost === 'peak' &&
    !limitsStrength(task)
  );
}

/** Refines what the families found; adds its runs to `runs`. */
async function refinedFront(
  { common, searches, spent }: FamilySearches,
  evaluator: ChannelEvaluator,
  { evaluations, signal, onProgress }: SearchOptions,
  runs: SearchRun[],
): Promise<Refined[]> {
  const known = common.front().map((found) => ({
    start: { family: searches.indexOf(found.owner), x: found.x },
    size: sizeOf(found),
    cost: costOf(found),
  }));
  const before = spent();
  let used = 0;
  return refineFront(known, {
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
  });
}

function frontOf(
  { searches, common, spent }: FamilySearches,
  refined: readonly Refined[],
  runs: readonly SearchRun[],
  stop: SearchStop,
): ChannelFront {
  const free = refined.map(
    ({ design, size, cost, locallyOptimalWithin }): FoundChannel => ({
      family: curvatureFamily,
      parameters: curvatureParameters(design),
      size,
      cost,
      ...(Number.isFinite(locallyOptimalWithin) && { locallyOptimalWithin }),
    }),
  );
  const designs = bySize([...common.front().map((member) => foundChannel(member.owner.family, member)), ...free]);
  const referencePoint = [0, 1.1 * Math.max(0, ...designs.map(({ cost }) => cost))] as const;
  return {
    designs,
    families: Object.fromEntries(
      searches.map((search) => [
        search.family.name,
        bySize([
          ...search.front.front().map((member) => foundChannel(search.family, member)),
          ...(search.family.name === curvatureFamily ? free : []),
        ]),
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
