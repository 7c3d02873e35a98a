import { type ChannelTask, taskFamilies } from '@lumenfront/core';
import { Archive, hypervolume } from '../front/index.js';
import type { PolishStart } from '../method/index.js';
import type { Solution } from '../problem.js';
import { randomFrom } from '../random.js';
import { type Accept, type DescentStart, FamilySearch, type Owned } from './family-search.js';
import { areaOf } from './family-space.js';
import type { ScoreChannels, SearchOptions } from './result.js';

/** Evaluations of a family's genetic algorithm: a share of its budget, and at least so many per parameter. */
const wideShare = 0.05;
const widePerParameter = 150;
/** Share of a family's budget that Nelder-Mead has at the end, and the places in area that it polishes. */
const polishShare = 0.08;
const polishPlaces = 8;
/** Gain in hypervolume, as a share, below which a further round of descents is not worth it. */
const leastGain = 3e-4;
/** Rounds of descents: fewer places in area first, then more, which start near their goal; the last is repeated. */
const rounds = [
  { places: 13, steps: 16, radius: 0.05 },
  { places: 13, steps: 8, radius: 0.03 },
  { places: 25, steps: 6, radius: 0.02 },
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
    (family, index) => new FamilySearch(family, index, random.split(family.name), score),
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
  let weight = order.reduce((sum, { family }) => sum + family.parameters.length, 0);
  for (const search of order) {
    const parameters = search.family.parameters.length;
    const share = Math.floor(((evaluations - spent()) * parameters) / weight);
    weight -= parameters;
    await searchFamily(all, search, share, search === order.at(-1));
  }
  return all;
}

/** Searches one family with `share` evaluations: wide, down, and at the kinks. What it need not spend is left to the next. */
async function searchFamily(all: FamilySearches, search: FamilySearch, share: number, isLast: boolean): Promise<void> {
  const accept = all.acceptor(search);
  const begun = search.evaluations;
  const left = (reserve = 0) => Math.floor((1 - reserve) * share) - (search.evaluations - begun);
  const goOn = () => {
    all.report();
    return !all.aborted;
  };
  const imitations = search.imitations(all.common.front());
  const wide = Math.min(left(), Math.max(wideShare * share, widePerParameter * search.family.parameters.length));
  await search.evolve(
    imitations.map(({ x }) => x),
    Math.floor(wide),
    accept,
    goOn,
  );
  for (let round = 0; left(polishShare) > 0 && goOn(); round++) {
    const { places, steps, radius } = rounds[Math.min(round, rounds.length - 1)]!;
    const spent = search.evaluations;
    const known = volume(search);
    await search.descend(descentStarts(search, imitations, places, round), radius, steps, left(polishShare), accept);
    const gained = volume(search) - known;
    if (search.evaluations === spent || (!isLast && round >= 2 && gained < leastGain * known)) break;
  }
  const each = Math.floor((polishShare * share) / polishPlaces);
  if (goOn() && each > 0) await search.polish(polishStarts(search), each, left(), accept);
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

/** An outline and its area, from which a descent may begin. */
interface Known {
  readonly x: Float64Array;
  readonly area: number;
}

/**
 * Descents towards `places` areas, evenly spaced over the front. First from imitations of what other families reached, where there
 * are any (smooth outlines descend well); then from the nearest outline that this family reached, in every other round from the
 * nearest one that is a place smaller, so that what a neighbour found is passed on. Areas that a larger outline of lower peak
 * makes needless are left out.
 */
function descentStarts(
  search: FamilySearch,
  imitations: readonly Known[],
  places: number,
  round: number,
): DescentStart[] {
  const own = search.front.front().map((found) => ({ x: found.x, area: areaOf(found) }));
  const first = round === 0 && imitations.length > 1;
  const known = first ? imitations : [...own, ...search.reached];
  if (known.length === 0) return [];
  const areas = (first ? imitations : own).map(({ area }) => area);
  const least = Math.min(...areas);
  const most = Math.max(...areas);
  const pitch = (most - least) / (places - 1);
  return Array.from({ length: places }, (_, p) => least + pitch * p).flatMap((area) => {
    const needless = !first && !own.some((found) => found.area >= area - pitch / 2 && found.area <= area + pitch);
    if (needless) return [];
    const smaller = round > 0 && round % 2 === 0 ? known.filter((start) => start.area < area - pitch / 2) : [];
    const from = (smaller.length > 0 ? smaller : known).reduce((a, b) =>
      Math.abs(b.area - area) < Math.abs(a.area - area) ? b : a,
    );
    return [{ from, goal: { area } }];
  });
}
