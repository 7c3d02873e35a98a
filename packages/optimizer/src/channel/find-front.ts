import { type ChannelTask, taskFamilies } from '@lumenfront/core';
import { Archive, hypervolume } from '../front/index.js';
import type { PolishStart } from '../method/index.js';
import type { Solution } from '../problem.js';
import { randomFrom } from '../random.js';
import { FamilySearch } from './family-search.js';
import { areaOf, foundChannel, nearestChannel, peakOf } from './family-space.js';
import type { ChannelFront, ScoreChannels, SearchOptions } from './result.js';

/** Share of the budget that the genetic algorithm has; what is left polishes. */
const wideShare = 0.6;
/** Places in area, evenly spaced, towards which the front is polished. */
const places = 24;

/** A solution and the search that found it. */
export interface Owned extends Solution {
  readonly owner: FamilySearch;
}

/**
 * Searches the front of a task: largest area against least peak, all families at once.
 *
 * Wide first: one genetic algorithm per family, in turns; turns go to the families whose outlines enter the common front. Then
 * Nelder-Mead polishes the least peak at evenly spaced areas, each from the best outline of at least that area, in rounds until
 * the budget is spent. The same seed gives the same front, whoever scores.
 */
export async function findFront(
  task: ChannelTask,
  score: ScoreChannels,
  options: SearchOptions,
): Promise<ChannelFront> {
  const random = randomFrom(options.seed);
  const searches = taskFamilies(task).map(
    (family, index) => new FamilySearch(family, index, random.split(family.name), score),
  );
  const common = new Archive<Owned>({ size: 400 });
  const spent = () => searches.reduce((sum, search) => sum + search.evaluations, 0);
  const left = (share = 1) => Math.floor(share * options.evaluations) - spent();
  const report = () => options.onProgress?.({ evaluations: spent(), designs: common.front().length });
  const acceptor = (owner: FamilySearch) => (found: Solution) => common.add({ ...found, owner });
  const aborted = () => options.signal?.aborted === true;

  await evolve(searches, acceptor, () => (aborted() ? 0 : left(wideShare)), report);
  for (const search of searches) search.endEvolution(aborted() ? 'aborted' : 'budget spent');

  let size = 0.2;
  while (!aborted() && left() > 0 && common.front().length > 1) {
    const each = Math.max(40, Math.floor(left() / (2 * places)));
    const before = spent();
    for (const search of searches) {
      const starts = polishStarts(common.front(), search);
      await search.polish(starts, each, Math.min(left(), each * starts.length), search.spread(size), acceptor(search));
      report();
    }
    size /= 2;
    if (spent() === before) break;
  }
  return frontOf(searches, common.front(), spent());
}

/** Turns of the genetic algorithms: to the family with the most success lately, and one in four to each in rotation. */
async function evolve(
  searches: readonly FamilySearch[],
  acceptor: (owner: FamilySearch) => (found: Solution) => boolean,
  left: () => number,
  report: () => void,
): Promise<void> {
  const success = searches.map(() => 1);
  for (let turn = 0; left() > 0; turn++) {
    const open = searches.map((_, i) => i).filter((i) => !searches[i]!.stalled);
    if (open.length === 0) return;
    const best = open.reduce((a, b) => (success[b]! > success[a]! ? b : a));
    const chosen =
      turn % 4 === 3 || turn < 4 * searches.length
        ? open[Math.floor(turn / (turn < 4 * searches.length ? 1 : 4)) % open.length]!
        : best;
    const search = searches[chosen]!;
    const before = search.evaluations;
    const accepted = await search.evolve(left(), acceptor(search));
    const made = search.evaluations - before;
    if (made > 0) success[chosen] = 0.8 * success[chosen]! + 0.2 * (accepted / made);
    report();
  }
}

/** For every place in area whose best outline belongs to `search`: make its peak least at no less area. */
function polishStarts(front: readonly Owned[], search: FamilySearch): PolishStart[] {
  const areas = front.map(areaOf);
  const least = Math.min(...areas);
  const most = Math.max(...areas);
  return Array.from({ length: places }, (_, p) => least + ((most - least) * p) / (places - 1)).flatMap((area) => {
    const candidates = front.filter((found) => areaOf(found) >= area * (1 - 1e-12));
    const from = candidates.reduce((a, b) => (peakOf(b) < peakOf(a) ? b : a));
    if (from.owner !== search) return [];
    return [{ from, goal: { kind: 'epsilon constraint', objective: 1, limits: [-area, 0] } }];
  });
}

function frontOf(searches: readonly FamilySearch[], members: readonly Owned[], evaluations: number): ChannelFront {
  const sorted = [...members].sort((a, b) => areaOf(a) - areaOf(b));
  const referencePoint = [0, 1.1 * Math.max(0, ...sorted.map(peakOf))] as const;
  const nearest = searches
    .filter((search) => search.nearest !== undefined)
    .reduce<FamilySearch | undefined>(
      (a, b) => (a === undefined || b.nearest!.violation < a.nearest!.violation ? b : a),
      undefined,
    );
  return {
    designs: sorted.map((member) => foundChannel(member.owner.family, member)),
    families: Object.fromEntries(
      searches.map((search) => [
        search.family.name,
        [...search.front.front()]
          .sort((a, b) => areaOf(a) - areaOf(b))
          .map((member) => foundChannel(search.family, member)),
      ]),
    ),
    evaluations,
    runs: searches.flatMap(({ runs }) => runs),
    hypervolume: hypervolume(
      sorted.map(({ objectives }) => objectives),
      [-referencePoint[0], referencePoint[1]],
    ),
    referencePoint,
    nearest:
      sorted.length === 0 && nearest !== undefined ? nearestChannel(nearest.family, nearest.nearest!) : undefined,
  };
}
