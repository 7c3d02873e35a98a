import { hypervolume } from '../front/index.js';
import type { ChannelEvaluator } from './evaluator.js';
import type { FamilySearch } from './family-search.js';
import { costOf, foundChannel, nearestChannel, sizeOf } from './family-space.js';
import type { ChannelFront, NearestChannel, SearchOptions } from './result.js';
import { type FamilySearches, searchFamilies } from './search-families.js';

/** Searches the front of the evaluator's task, by its objective, over all its families (see `searchFamilies`). */
export async function findFront(evaluator: ChannelEvaluator, options: SearchOptions): Promise<ChannelFront> {
  return frontOf(await searchFamilies(evaluator, options, options.evaluations));
}

function frontOf({ searches, common, spent }: FamilySearches): ChannelFront {
  const sorted = [...common.front()].sort((a, b) => sizeOf(a) - sizeOf(b));
  const referencePoint = [0, 1.1 * Math.max(0, ...sorted.map(costOf))] as const;
  return {
    designs: sorted.map((member) => foundChannel(member.owner.family, member)),
    families: Object.fromEntries(
      searches.map((search) => [
        search.family.name,
        [...search.front.front()]
          .sort((a, b) => sizeOf(a) - sizeOf(b))
          .map((member) => foundChannel(search.family, member)),
      ]),
    ),
    evaluations: spent(),
    runs: searches.flatMap(({ runs }) => runs),
    hypervolume: hypervolume(
      sorted.map(({ objectives }) => objectives),
      [-referencePoint[0], referencePoint[1]],
    ),
    referencePoint,
    nearest: sorted.length === 0 ? nearestOf(searches) : undefined,
  };
}

/** What came nearest to being admissible, over all families. */
export function nearestOf(searches: readonly FamilySearch[]): NearestChannel | undefined {
  const tried = searches.flatMap(({ family, nearest }) => (nearest === undefined ? [] : [{ family, nearest }]));
  if (tried.length === 0) return undefined;
  const { family, nearest } = tried.reduce((a, b) => (b.nearest.violation < a.nearest.violation ? b : a));
  return nearestChannel(family, nearest);
}
