import { power, slopesCost } from '@lumenfront/core';
import { bestBySize, hypervolume } from '../front/index.js';
import { besideCost, finerCost, type RefineRequest } from './refine.js';
import { finishedOf, type Refined, type RefinePlan, refinedOf } from './refine-front.js';

/** Neighbours of a front differ in cost by about this share… */
const step = 0.006;
/** …of which one in so many has slopes of its own, and those on both sides of it are foretold. */
const group = 4;
/** A later round begins where an earlier one has found something better. */
const rounds = 4;
/** Around a cost means within this factor. */
const around = 1.05;
const slopes = 1;
const radius = 0.03;
/** Steps of half a gap that is descended into where following it came to nothing. */
const wide = 3;
/** What is left of the budget for the gaps that a better design opens, where the rest was spent on finding it. */
const keptForGaps = 0.08;
/** Certificates beyond this share are worth slopes of their own. */
const loose = 0.003;
const polishSlopes = 4;

/** Designs evenly along a front that begin anew from their neighbours, knots where those have them; slopes for each, first radius of trust… */
const places = 15;
const anew = { pieces: 40, slopes: 12, radius: 0.05 };
/** …as long as the hypervolume of the front grows by this share. */
const worthIt = 3e-4;
const mostExchanges = 8;

/** Why a front was not brought down further. */
export type FollowStop = 'nothing more gained' | 'budget spent' | 'aborted';

export interface FollowedFront {
  readonly found: readonly Refined[];
  readonly stop: FollowStop;
}

/**
 * Fills a refined front between its designs, polishes what is not yet the best nearby, then begins anew from neighbours, place by place, as long as that brings something
 * and the budget lasts. With `allow`, only around that cost.
 */
export async function followFront(found: readonly Refined[], plan: RefinePlan, allow?: number): Promise<FollowedFront> {
  const all = [...finishedOf(found)];
  const begun = new Set<string>();
  const front = () => bestBySize(all, sizeOf, costOf);
  const kept = keptForGaps * plan.left();
  const refine = async (requests: readonly RefineRequest[], spare: number): Promise<boolean> => {
    let left = plan.left() - spare;
    const affordable = requests.filter(({ most }) => {
      left -= most;
      return left >= 0;
    });
    if (!plan.goOn()) return false;
    if (affordable.length === 0) return requests.length === 0;
    for (const result of await plan.refine(affordable)) {
      plan.note(result);
      all.push(...refinedOf(result));
    }
    return affordable.length === requests.length;
  };
  const dearest = Math.max(...all.map(costOf));
  const volume = () =>
    hypervolume(
      all.map(({ size, cost }) => [-size, cost]),
      [0, dearest],
    );
  const isNear = (cost: number) => allow === undefined || (cost > allow / around && cost < allow * around);

  const fillGaps = async (): Promise<boolean> => {
    let whole = true;
    for (let round = 0; round < rounds && whole; round++) {
      const gaps = gapsOf(front(), allow).filter(({ begin, share }) => isNew(begun, `${all.indexOf(begin)} ${share}`));
      if (gaps.length === 0) break;
      whole = await refine(gaps.map(following), 0);
    }
    const left = gapsOf(front(), allow).filter(
      ({ begin, share, most }) => most >= wide && isNew(begun, `${all.indexOf(begin)} ${share} descended`),
    );
    return whole && (await refine(left.map(descending), 0));
  };

  let stop: FollowStop = 'budget spent';
  for (let exchange = 0; exchange <= mostExchanges; exchange++) {
    const before = volume();
    let whole = true;
    if (exchange > 0)
      whole = await refine(
        beginningAnew(
          front().filter(({ cost }) => isNear(cost)),
          exchange,
          begun,
        ),
        kept,
      );
    whole = whole && (await fillGaps());
    whole = whole && (await refine(looseOf(front().filter(({ cost }) => isNear(cost))).map(polishing), kept));
    if (!plan.goOn()) {
      stop = 'aborted';
      break;
    }
    if (!whole) break;
    if (exchange > 0 && volume() < (1 + worthIt) * before) {
      stop = 'nothing more gained';
      break;
    }
  }
  if (stop === 'budget spent') await fillGaps();
  return { found: [...found, ...all], stop };
}

const sizeOf = ({ size }: Refined): number => size;
const costOf = ({ cost }: Refined): number => cost;

function isNew(begun: Set<string>, name: string): boolean {
  if (begun.has(name)) return false;
  begun.add(name);
  return true;
}

/** A way into a gap from one of its sides: so many designs, each larger than the one before by `share`. */
interface Gap {
  readonly begin: Refined;
  readonly share: number;
  readonly most: number;
}

function gapsOf(front: readonly Refined[], allow: number | undefined): Gap[] {
  return front.flatMap((below, k) => {
    const above = front[k + 1];
    if (above === undefined || (allow !== undefined && (above.cost < allow / around || below.cost > allow * around)))
      return [];
    const parts = Math.floor(Math.log(above.cost / below.cost) / step);
    if (parts < 2) return [];
    const share = power(above.size / below.size, 1 / parts) - 1;
    const half = Math.ceil(parts / 2);
    return [
      { begin: below, share, most: half },
      { begin: above, share: -share, most: parts - half },
    ];
  });
}

/** To the middle of a gap that was not to be followed into: a descent. */
function descending({ begin: { design, size }, share, most }: Gap): RefineRequest {
  const { slopes, radius } = anew;
  return {
    start: design,
    areas: [size * power(1 + share, most)],
    ...{ pieces: undefined, radius, slopes, slopesBeyond: 0, beside: [] },
    most: slopes * (slopesCost(design.values.length) + 4) + finerCost,
  };
}

function following({ begin: { design, size }, share, most }: Gap): RefineRequest {
  const count = Math.max(0, Math.ceil((most - 2) / group)) + 1;
  const perDesign = slopes * slopesCost(design.values.length) + 4 + finerCost + (group - 1) * besideCost;
  return {
    start: design,
    areas: Array.from({ length: count }, (_, k) => size * power(1 + share, k * group)),
    pieces: undefined,
    radius,
    slopes: 0,
    slopesBeyond: slopes,
    beside: [-share / (1 + share), share, share * (2 + share)],
    most: count * perDesign,
  };
}

/** Designs whose certificate leaves something to gain; those that were foretold share that of one that was not. */
function looseOf(front: readonly Refined[]): Refined[] {
  return front.filter(
    ({ locallyOptimalWithin }, k) =>
      locallyOptimalWithin > loose && locallyOptimalWithin !== front[k - 1]?.locallyOptimalWithin,
  );
}

function polishing({ design, size }: Refined): RefineRequest {
  return {
    start: design,
    areas: [size],
    pieces: undefined,
    radius,
    slopes: polishSlopes,
    slopesBeyond: 0,
    beside: [-step, -step / 2, step / 2],
    most: (polishSlopes + 1) * (slopesCost(design.values.length) + 4) + finerCost + 3 * besideCost,
  };
}

/** Places along a front from the designs of the neighbours on both sides; every other time half way between. */
function beginningAnew(front: readonly Refined[], exchange: number, begun: Set<string>): RefineRequest[] {
  const [first, last] = [front[0], front.at(-1)];
  if (first === undefined || last === undefined) return [];
  const at = (share: number) => front[Math.round(share * (front.length - 1))]!;
  const { pieces, slopes, radius } = anew;
  return Array.from({ length: places }, (_, k) => (k + (exchange % 2) / 2) / (places - 1)).flatMap((share) =>
    [-1, 1].flatMap((way) => {
      const neighbour = share + way / (places - 1);
      if (share > 1 || neighbour < 0 || neighbour > 1) return [];
      const [{ size }, { design, size: from }] = [at(share), at(neighbour)];
      if (size === from || !isNew(begun, `${size} from ${from}`)) return [];
      const most = slopes * (slopesCost(pieces + 2) + 4) + finerCost;
      return [{ start: design, areas: [size], pieces, radius, slopes, slopesBeyond: 0, beside: [], most }];
    }),
  );
}
