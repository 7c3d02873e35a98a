import { type ChannelTask, limitsStrength, taskFamilies } from '@lumenfront/core';
import { Archive, hypervolume } from '../front/index.js';
import type { PolishStart } from '../method/index.js';
import type { Solution } from '../problem.js';
import { randomFrom } from '../random.js';
import {
  type Accept,
  type Descent,
  type DescentGoal,
  type DescentStart,
  FamilySearch,
  type Known,
  type Owned,
} from './family-search.js';
import { areaOf, peakOf } from './family-space.js';
import type { ScoreChannels, SearchOptions } from './result.js';

/** Evaluations of a family's genetic algorithm: a share of its budget, and at least so many per parameter. */
const wideShare = 0.05;
const widePerParameter = 60;
/** Share of a family's budget that Nelder-Mead has at the end, and the places in area that it polishes. */
const polishShare = 0.05;
const polishPlaces = 8;
/** Gain in hypervolume, as a share, below which a further round of descents is not worth it. */
const leastGain = 5e-4;
/** Places in area of the first descents, and slopes after which only the best of each place goes on. */
const firstPlaces = 13;
const heatSlopes = 2;
const mostSlopes = 20;
const firstRadius = 0.05;
/** Rounds that follow, repeated: more places, each starting from its nearest neighbour of one side or either. */
const rounds = [
  { places: 25, side: 'larger', radius: 0.05, slopes: 6 },
  { places: 25, side: 'smaller', radius: 0.05, slopes: 6 },
  { places: 49, side: 'either', radius: 0.02, slopes: 2 },
] as const;

/** The searches of all families of a task, with what they found together. */
export interface FamilySearches {
  readonly searches: readonly FamilySearch[];
  /** Non-dominated over all families. */
  readonly common: Archive<Owned>;
  spent(): number;
  acceptor(owner: FamilySearch): Accept;
  readonly aborted: boolean;
  report(): void;
}

/**
 * Searches all families for the front of largest area against least peak, with `evaluations` at most.
 *
 * Family by family, those with few parameters first. Each goes wide by a genetic algorithm; then minimax descents bring its front
 * to the least peak at evenly spaced areas, in rounds, each place starting from what its neighbours reached; Nelder-Mead, which
 * needs no slopes, polishes what is left at kinks. A family that can imitate outlines begins from what the others found. The same
 * seed gives the same front, whoever scores.
 */
export async function searchFamilies(
  task: ChannelTask,
  score: ScoreChannels,
  options: SearchOptions,
  evaluations: number,
): Promise<FamilySearches> {
  const random = randomFrom(options.seed);
  const searches = taskFamilies(task).map(
    (family, index) => new FamilySearch(family, index, random.split(family.name), score, limitsStrength(task)),
  );
  const common = new Archive<Owned>({ size: 400 });
  const spent = () => searches.reduce((sum, search) => sum + search.evaluations, 0);
  const all: FamilySearches = {
    searches,
    common,
    spent,
    acceptor: (owner) => (found: Solution) => common.add({ ...found, owner }),
    get aborted() {
      return options.signal?.aborted === true;
    },
    report: () => options.onProgress?.({ evaluations: spent(), designs: common.front().length }),
  };
  // Families with few parameters first: they are cheap, and what they find is where the others begin.
  const order = [...searches].sort((a, b) => a.family.parameters.length - b.family.parameters.length);
  const weightOf = ({ family }: FamilySearch) => family.parameters.length ** 2;
  let weight = order.reduce((sum, search) => sum + weightOf(search), 0);
  for (const search of order) {
    const share = Math.floor(((evaluations - spent()) * weightOf(search)) / weight);
    weight -= weightOf(search);
    await searchFamily(all, search, share);
  }
  return all;
}

/** Searches one family with `share` evaluations: wide, down, and at the kinks. What it need not spend is left to the next. */
async function searchFamily(all: FamilySearches, search: FamilySearch, share: number): Promise<void> {
  const accept = all.acceptor(search);
  const begun = search.evaluations;
  const left = (reserve = 0) => Math.floor((1 - reserve) * share) - (search.evaluations - begun);
  const goOn = () => {
    all.report();
    return !all.aborted;
  };
  const imitations = groupsOf(all.common.front()).map((found) => search.imitations(found));
  const wide = Math.min(left(), Math.max(wideShare * share, widePerParameter * search.family.parameters.length));
  await search.evolve(
    imitations.flat().map(({ x }) => x),
    Math.floor(wide),
    accept,
    goOn,
  );
  if (!goOn()) return;
  if (search.limitsStrength && ownFront(search).length === 0) {
    const rescue = search.descents(nearestStarts(all.searches, search), firstRadius);
    await search.descend(rescue, mostSlopes, left(polishShare), accept);
    if (!goOn()) return;
  }
  // Heats: for every goal the best outlines of each family; after a few slopes the best of them goes on. First both ends of the
  // front, then what lies between them.
  const reached: Known[] = [];
  for (const startsOf of [endStarts, placeStarts]) {
    const field = search.descents(startsOf([...imitations, ownFront(search)]), firstRadius);
    await search.descend(field, heatSlopes, left(polishShare), accept);
    const winners = winnersOf(field);
    await search.descend(winners, mostSlopes, left(polishShare), accept);
    for (const { method, goal } of winners)
      if ('area' in goal) reached.push({ x: method.x, area: goal.area, peak: method.value });
    if (!goOn()) return;
  }
  let idle = 0;
  for (let round = 0; left(polishShare) > search.family.parameters.length && idle < rounds.length && goOn(); round++) {
    const { places, side, radius, slopes } = rounds[round % rounds.length]!;
    const spent = search.evaluations;
    const known = volume(search);
    const descents = search.descents(neighbourStarts(search, reached, places, side), radius);
    await search.descend(descents, slopes, left(polishShare), accept);
    if (search.evaluations === spent) break;
    idle = volume(search) - known < leastGain * known ? idle + 1 : 0;
  }
  const each = Math.floor((polishShare * share) / polishPlaces);
  if (goOn() && each > 0) await search.polish(polishStarts(search), each, left(), accept);
}

/**
 * Outlines of the strength that is asked for can be too rare to meet by chance: descents from what came nearest, here and in the
 * families that were searched before.
 */
function nearestStarts(searches: readonly FamilySearch[], search: FamilySearch): DescentStart[] {
  const others = searches.flatMap((owner) =>
    owner === search || owner.nearest === undefined ? [] : [{ ...owner.nearest, owner }],
  );
  const own = search.nearest === undefined ? [] : [search.nearest];
  return [...search.imitations(others), ...own].map((from) => ({ from, goal: { area: 0 } }));
}

/** The least peak at no less area, for some members spread over the front. */
function polishStarts(search: FamilySearch): PolishStart[] {
  const front = [...search.front.front()].sort((a, b) => areaOf(a) - areaOf(b));
  const count = Math.min(polishPlaces, front.length);
  return Array.from({ length: count }, (_, p) => front[Math.floor(((p + 0.5) * front.length) / count)]!).map(
    (from) => ({
      from,
      goal: { kind: 'epsilon constraint', objective: 1, limits: [-areaOf(from), 0] },
    }),
  );
}

/** Hypervolume of a family's own front, in areas against the largest peak that counts. */
function volume({ front }: FamilySearch): number {
  const members = front.front().map(({ objectives }) => objectives);
  return hypervolume(members, [0, 1000]);
}

function ownFront({ front }: FamilySearch): Known[] {
  return front.front().map((found) => ({ x: found.x, area: areaOf(found), peak: peakOf(found) }));
}

function groupsOf(found: readonly Owned[]): Owned[][] {
  return [...new Set(found.map(({ owner }) => owner))].map((owner) => found.filter((one) => one.owner === owner));
}

type Groups = readonly (readonly Known[])[];

/** Towards the least peak at any area and the largest area at any peak, from what every group has nearest to them. */
function endStarts(groups: Groups): DescentStart[] {
  const least = { area: 0 };
  const largest = { peak: Number.POSITIVE_INFINITY };
  return groups
    .filter((known) => known.length > 0)
    .flatMap((known) => [
      { from: nearestTo(0, known), goal: least },
      { from: nearestTo(1e9, known), goal: largest },
    ]);
}

/** Towards evenly spaced areas, from the nearest outline of every group. */
function placeStarts(groups: Groups): DescentStart[] {
  const areas = groups.flat().map(({ area }) => area);
  if (areas.length === 0) return [];
  return placesBetween(Math.min(...areas), Math.max(...areas), firstPlaces).flatMap((area) => {
    const goal = { area };
    return groups.filter((known) => known.length > 0).map((known) => ({ from: nearestTo(area, known), goal }));
  });
}

/** The descent that came furthest of those with the same goal. */
function winnersOf(field: readonly Descent[]): Descent[] {
  const best = new Map<DescentGoal, Descent>();
  for (const descent of field) {
    const rival = best.get(descent.goal);
    if (rival === undefined || standing(descent) < standing(rival)) best.set(descent.goal, descent);
  }
  return [...best.values()];
}

function standing({ method }: Descent): number {
  const { stop, value, violation } = method;
  return stop === 'start has no profile' ? Number.POSITIVE_INFINITY : value + 10 * violation * Math.abs(value);
}

function placesBetween(least: number, most: number, places: number): number[] {
  return Array.from({ length: places }, (_, p) => least + ((most - least) * p) / (places - 1));
}

function nearestTo(area: number, known: readonly Known[]): Known {
  return known.reduce((a, b) => (Math.abs(b.area - area) < Math.abs(a.area - area) ? b : a));
}

/**
 * Descents towards `places` areas, evenly spaced over the front, each from the nearest outline that is at least a place smaller or
 * larger, or from the nearest of all. Areas that a larger outline of lower peak makes needless are left out.
 */
function neighbourStarts(
  search: FamilySearch,
  reached: readonly Known[],
  places: number,
  side: 'smaller' | 'larger' | 'either',
): DescentStart[] {
  const own = ownFront(search);
  if (own.length === 0) return [];
  const areas = own.map(({ area }) => area);
  const [least, most] = [Math.min(...areas), Math.max(...areas)];
  const pitch = (most - least) / (places - 1);
  const known = [...own, ...reached];
  return placesBetween(least, most, places).flatMap((area) => {
    if (!own.some((found) => found.area >= area - pitch / 2 && found.area <= area + pitch)) return [];
    const beside = known.filter(
      (start) =>
        side === 'either' || (side === 'smaller' ? start.area < area - pitch / 2 : start.area > area + pitch / 2),
    );
    return beside.length === 0 ? [] : [{ from: nearestTo(area, beside), goal: { area } }];
  });
}
