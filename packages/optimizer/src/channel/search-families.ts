import { taskFamilies } from '@lumenfront/core';
import { Archive, hypervolume } from '../front/index.js';
import type { PolishStart } from '../method/index.js';
import type { Solution } from '../problem.js';
import { randomFrom } from '../random.js';
import { endStarts, type Groups, placeStarts, winnersOf } from './descent-starts.js';
import type { ChannelEvaluator } from './evaluator.js';
import { type Accept, type DescentStart, FamilySearch, type Owned } from './family-search.js';
import { costOf, sizeOf } from './family-space.js';
import { gapStarts } from './gaps.js';
import type { SearchOptions } from './result.js';
import { sweepSteps } from './sweep.js';

/** Evaluations of a family's genetic algorithm: a share of its budget, and at least so many per parameter. */
const wideShare = 0.05;
const widePerParameter = 60;
/** Share of a family's budget that Nelder-Mead has at the end, and the places over the front that it polishes. */
const polishShare = 0.05;
const polishPlaces = 8;
/** Gain in hypervolume, as a share, below which more sweeps are not worth it. */
const leastGain = 5e-4;
/** Slopes of the first descents, after which only the best of those towards the same end goes on. */
const heatSlopes = 2;
const mostSlopes = 20;
const firstRadius = 0.05;
const sweepRadius = 0.05;
const sweepSlopes = 14;
/** Share of what is left that a pair of sweeps may take: the rest closes the gaps between the places. */
const sweepShare = 0.6;
/** From one side of a gap to its middle is not far, and its ends are good already. */
const fillRadius = 0.015;
const fillSlopes = 10;
const fillGain = 0.002;
/** Lead of another family, as a share, from which on this one is not tried there again. */
const clearly = 0.05;

/** The searches of all families of a task, with what they found together. */
export interface FamilySearches {
  readonly searches: readonly FamilySearch[];
  /** Non-dominated over all families. */
  readonly common: Archive<Owned>;
  spent(): number;
  acceptor(owner: FamilySearch): Accept;
  /** Reports progress; false when the search is to end. */
  goOn(): boolean;
}

export interface FamilyBudget {
  /** Evaluations at most. */
  readonly evaluations: number;
  /** What follows takes slopes, and does better from what the genetic algorithm found: no descents by differences where that is admissible. */
  readonly onlyWide?: boolean;
}

/**
 * Searches all families for the front of largest size against least cost.
 *
 * Family by family, those with few parameters first. Each goes wide by a genetic algorithm; then minimax descents bring its front
 * to the least cost at evenly spaced sizes, in sweeps, each place starting from what its neighbour reached, and close the gaps that
 * are left; Nelder-Mead, which needs no slopes, polishes at kinks. A family that can imitate outlines begins from what the others found. The same
 * seed gives the same front, whoever scores.
 */
export async function searchFamilies(
  evaluator: ChannelEvaluator,
  options: SearchOptions,
  { evaluations, onlyWide = false }: FamilyBudget,
): Promise<FamilySearches> {
  const random = randomFrom(options.seed);
  const searches = taskFamilies(evaluator.task).map(
    (family, index) => new FamilySearch(family, index, random.split(family.name), evaluator),
  );
  const common = new Archive<Owned>({ size: 200 });
  const spent = () => searches.reduce((sum, search) => sum + search.evaluations, 0);
  const all: FamilySearches = {
    searches,
    common,
    spent,
    acceptor: (owner) => (found: Solution) => common.add({ ...found, owner }),
    goOn() {
      options.onProgress?.({ evaluations: spent(), designs: common.front().length });
      return options.signal?.aborted !== true;
    },
  };
  // Families with few parameters first: they are cheap, and what they find is where the others begin.
  const order = [...searches].sort((a, b) => a.family.parameters.length - b.family.parameters.length);
  const weightOf = ({ family }: FamilySearch) => family.parameters.length ** 2;
  let weight = order.reduce((sum, search) => sum + weightOf(search), 0);
  for (const search of order) {
    const share = Math.floor(((evaluations - spent()) * weightOf(search)) / weight);
    weight -= weightOf(search);
    await searchFamily(all, search, share, onlyWide);
  }
  return all;
}

/** Searches one family with `share` evaluations: wide, down, and at the kinks. What it need not spend is left to the next. */
async function searchFamily(
  all: FamilySearches,
  search: FamilySearch,
  share: number,
  onlyWide: boolean,
): Promise<void> {
  const accept = all.acceptor(search);
  const before = search.evaluations;
  const left = (reserve = 0) => Math.floor((1 - reserve) * share) - (search.evaluations - before);
  const imitations = groupsOf(all.common.front()).map((found) => search.imitations(found));
  const groups = (): Groups => [...imitations, search.known()];
  const wide = Math.min(left(), Math.max(wideShare * share, widePerParameter * search.family.parameters.length));
  await search.evolve(
    imitations.flat().map(({ x }) => x),
    Math.floor(wide),
    accept,
    () => all.goOn(),
  );
  if (!all.goOn()) return;
  if (search.known().length === 0) {
    await search.descend(nearestStarts(all.searches, search), carried(left(polishShare)), accept);
    if (!all.goOn()) return;
  }
  if (onlyWide) return;
  const ends = await search.descend(endStarts(groups()), begun(left(polishShare)), accept);
  await search.descend(winnersOf(ends), carried(left(polishShare)), accept);
  if (!all.goOn()) return;
  await search.descend(placeStarts(groups()), begun(left(polishShare)), accept);
  if (!all.goOn()) return;
  await bringDown(all, search, () => left(polishShare));
  const each = Math.floor((polishShare * share) / polishPlaces);
  if (all.goOn() && each > 0) await search.polish(polishStarts(search), each, left(), accept);
}

/** First descents: a few slopes, after which the best go on, or to the end. */
const begun = (most: number) => ({ radius: firstRadius, slopes: heatSlopes, most });
const carried = (most: number) => ({ radius: firstRadius, slopes: mostSlopes, most });

/** Sweeps over a family's front, up and down, and descents into what gaps are left, until that brings nothing more. */
async function bringDown(all: FamilySearches, search: FamilySearch, left: () => number): Promise<void> {
  const accept = all.acceptor(search);
  const end = () => Math.max(0, ...all.common.front().map(sizeOf));
  /** Others do better there than what this family has; where it has nothing yet, it goes on trying. */
  const beaten = (size: number) => {
    const own = leastCost(search.front.front(), size);
    return Number.isFinite(own) && leastCost(all.common.front(), size) < (1 - clearly) * own;
  };
  const tried = new Set<string>();
  for (let pair = 0; left() > 2 * search.family.parameters.length; pair++) {
    const before = objectivesOf(search);
    const reserve = (1 - sweepShare) * left();
    for (const direction of ['up', 'down'] as const)
      for (const starts of sweepSteps(search, { end: end(), direction, aside: pair % 2 === 1 })) {
        const worthIt = pair === 0 && direction === 'up' ? starts() : starts().filter(({ goal }) => !beaten(goal.size));
        const plan = { radius: sweepRadius, slopes: sweepSlopes, most: Math.floor(left() - reserve) };
        await search.descend(worthIt, plan, accept);
        if (!all.goOn()) return;
      }
    for (;;) {
      const starts = gapStarts(search, end(), tried, beaten);
      if (starts.length === 0 || left() <= 2 * search.family.parameters.length) break;
      const plan = { radius: fillRadius, slopes: fillSlopes, gain: fillGain, most: left() };
      await search.descend(starts, plan, accept);
      if (!all.goOn()) return;
    }
    if (!(gain(before, objectivesOf(search)) >= leastGain)) return;
  }
}

/**
 * Outlines that keep every limit can be too rare to meet by chance: descents from what came nearest, here and in the families that
 * were searched before.
 */
function nearestStarts(searches: readonly FamilySearch[], search: FamilySearch): DescentStart[] {
  const others = searches.flatMap((owner) =>
    owner === search || owner.nearest === undefined ? [] : [{ ...owner.nearest, owner }],
  );
  const own = search.nearest === undefined ? [] : [search.nearest];
  return [...search.imitations(others), ...own].map((from) => ({ from, goal: { size: 0 } }));
}

/** The least cost at no less size, for some members spread over the front. */
function polishStarts(search: FamilySearch): PolishStart[] {
  const front = [...search.front.front()].sort((a, b) => sizeOf(a) - sizeOf(b));
  const count = Math.min(polishPlaces, front.length);
  return Array.from({ length: count }, (_, p) => front[Math.floor(((p + 0.5) * front.length) / count)]!).map(
    (from) => ({
      from,
      goal: { objective: 1, limits: [-sizeOf(from), 0] },
    }),
  );
}

const objectivesOf = ({ front }: FamilySearch) => front.front().map(({ objectives }) => objectives);

/** Growth of a front's hypervolume, as a share, within the costs that it had. */
function gain(before: readonly Float64Array[], after: readonly Float64Array[]): number {
  const reference = [0, 1.1 * Math.max(0, ...before.map(([, cost]) => cost!))];
  return hypervolume(after, reference) / hypervolume(before, reference) - 1;
}

function leastCost(found: readonly Solution[], size: number): number {
  return Math.min(Number.POSITIVE_INFINITY, ...found.filter((one) => sizeOf(one) >= size).map(costOf));
}

function groupsOf(found: readonly Owned[]): Owned[][] {
  return [...new Set(found.map(({ owner }) => owner))].map((owner) => found.filter((one) => one.owner === owner));
}
