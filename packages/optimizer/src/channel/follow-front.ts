import { power, slopesCost } from '@lumenfront/core';
import { bestBySize, hypervolume } from '../front/index.js';
import { apartInCost, type Gap, gapsOf, group, reach, wayThrough } from './front-gaps.js';
import { besideCost, finerCost, type RefineRequest } from './refine.js';
import { finish, finishedOf, perSlopes, type Refined, type RefinePlan, refinedOf } from './refine-front.js';
import { areApart } from './shape-distance.js';

/** A later round begins where an earlier one has found something better. */
const rounds = 4;
/** Around a cost means within this factor. */
const around = 1.05;
const radius = 0.03;
/** Steps of half a gap that is descended into where following it came to nothing, with so many slopes and such a first radius of trust. */
const wide = 3;
const into = { slopes: 12, radius: 0.05 };
/** A shape goes on past where another one begins to be the better one: so many times, with so many slopes each, in steps of no more than such a share of the area. */
const mostExtensions = 6;
const extensionSlopes = 3;
const mostExtension = 0.02;
/** Share of the cost that makes it go on. */
const worthExtension = 0.001;
/** What is left of the budget for the gaps that a better design opens, where the rest was spent on finding it. */
const keptForGaps = 0.08;
/** At the end designs are fitted anew, and descend once more, as long as the last round added such a share to the hypervolume: twice what a told front misses between its designs. */
const worthRenewal = 1e-3;
const renewal = { pieces: finish.pieces, slopes: 2, enough: finish.enough };

/** Why a front was not brought down further. */
export type FollowStop = 'nothing more gained' | 'budget spent' | 'aborted';

export interface FollowedFront {
  readonly found: readonly Refined[];
  readonly stop: FollowStop;
}

/**
 * Fills a refined front between its designs, then polishes what is not yet the best nearby, as far as the budget lasts. With `allow`, only around that cost.
 */
export async function followFront(found: readonly Refined[], plan: RefinePlan, allow?: number): Promise<FollowedFront> {
  const all = [...finishedOf(found)];
  const begun = new Set<string>();
  const front = () => bestBySize(all, sizeOf, costOf);
  const kept = keptForGaps * plan.left();
  /** What each request came to, as far as the budget goes: what is left out of `spare`. */
  const answersTo = async (requests: readonly RefineRequest[], spare: number): Promise<readonly Refined[][]> => {
    let left = plan.left() - spare;
    const end = requests.findIndex(({ most }) => {
      left -= most;
      return left < 0;
    });
    const affordable = end < 0 ? requests : requests.slice(0, end);
    if (!plan.goOn() || affordable.length === 0) return [];
    return (await plan.refine(affordable)).map((result) => {
      plan.note(result);
      const reached = refinedOf(result);
      all.push(...reached);
      return reached;
    });
  };
  const refine = async (requests: readonly RefineRequest[], spare: number): Promise<boolean> =>
    (await answersTo(requests, spare)).length === requests.length;
  const isNear = ({ cost }: Refined) => allow === undefined || (cost > allow / around && cost < allow * around);
  const gaps = () =>
    gapsOf(front()).filter(
      ({ below, above }) => allow === undefined || (above.cost > allow / around && below.cost < allow * around),
    );

  const fillGaps = async (): Promise<boolean> => {
    let whole = true;
    for (let round = 0; round < rounds && whole; round++) {
      const way = round % 2 === 0 ? 1 : -1;
      const ways = following(gaps(), way).filter(({ name }) => isNew(begun, `${name} ${way}`));
      if (ways.length === 0 && round > 0) break;
      whole = await refine(
        ways.map(({ request }) => request),
        0,
      );
    }
    const left = gaps()
      .filter(({ parts }) => parts >= 2 * wide)
      .flatMap(descending);
    return (
      whole &&
      (await refine(
        left.filter(({ name }) => isNew(begun, name)).map(({ request }) => request),
        0,
      ))
    );
  };

  /** Where a front goes from one shape to another, either may be the better one beyond: it goes on as long as it is. */
  const extend = async (): Promise<boolean> => {
    let whole = true;
    let ways = gaps()
      .filter(({ below, above }) => areApart(below.design, above.design))
      .flatMap(extensions);
    for (let round = 0; round < mostExtensions && whole && ways.length > 0; round++) {
      const before = front();
      const answers = await answersTo(ways.map(extending), kept);
      whole = answers.length === ways.length;
      ways = answers.flatMap(([reached], k) =>
        reached !== undefined && reached.cost < (1 - worthExtension) * costAt(before, reached.size)
          ? [{ ...ways[k]!, from: reached }]
          : [],
      );
    }
    return whole;
  };

  // Knots go to where the curvature has gone, and what is not yet the best nearby comes down; that may open gaps, which are filled with what was kept for them.
  const dearest = Math.max(0, ...all.map(costOf));
  const worth = () =>
    hypervolume(
      front().map(({ size, cost }) => [-size, cost]),
      [0, dearest],
    );
  let whole = (await fillGaps()) && (await extend());
  for (let before = 0, now = worth(); whole && now > (1 + worthRenewal) * before; now = worth()) {
    before = now;
    whole = await refine(renewing(front().filter(isNear)), kept);
    whole = (await fillGaps()) && whole;
  }
  const stop = plan.goOn() ? (whole ? 'nothing more gained' : 'budget spent') : 'aborted';
  return { found: [...found, ...all], stop };
}

const sizeOf = ({ size }: Refined): number => size;
const costOf = ({ cost }: Refined): number => cost;

/** Of the first design of a front that is no smaller. */
const costAt = (front: readonly Refined[], area: number): number =>
  front.find(({ size }) => size >= area)?.cost ?? Number.POSITIVE_INFINITY;

function isNew(begun: Set<string>, name: string): boolean {
  if (begun.has(name)) return false;
  begun.add(name);
  return true;
}

interface NamedRequest {
  readonly name: string;
  readonly request: RefineRequest;
}

/** To the middle of a gap that was not to be followed into, from both sides: descents. */
function descending({ below, above }: Gap): NamedRequest[] {
  const area = Math.sqrt(below.size * above.size);
  return [below, above].map(({ design, size, cost }) => ({
    name: `${size} ${cost} to ${area}`,
    request: {
      start: design,
      areas: [area],
      ...{ pieces: undefined, radius: into.radius, slopes: into.slopes, slopesBeyond: 0, beside: [[]] },
      most: into.slopes * (slopesCost(design.values.length) + 4) + finerCost,
    },
  }));
}

/** From a design on, by steps of its area. */
interface Extension {
  readonly from: Refined;
  readonly share: number;
}

/** From both sides of a gap past the other one, in steps of the front, no longer than a shape can follow. */
function extensions({ below, above, step }: Gap): Extension[] {
  const share = Math.min(mostExtension, Math.max(step, (above.size / below.size - 1) / (reach + 1)));
  return [
    { from: below, share },
    { from: above, share: -share },
  ];
}

function extending({ from: { design, size }, share }: Extension): RefineRequest {
  const most = (extensionSlopes + 1) * (slopesCost(design.values.length) + 4) + finerCost;
  const how = { pieces: undefined, radius, slopes: extensionSlopes, slopesBeyond: 0 };
  return { start: design, areas: [size * power(1 + share, reach + 1)], beside: [[]], ...how, most };
}

/** Ways through the gaps of a front, from the designs on one side of each. */
function following(gaps: readonly Gap[], way: 1 | -1): NamedRequest[] {
  const begins = new Set(gaps.flatMap(({ below, above }) => [below, above]));
  return [...begins].flatMap((begin) => {
    const ahead = gaps.find(({ below, above }) => (way > 0 ? below : above) === begin);
    const behind = gaps.find(({ below, above }) => (way > 0 ? above : below) === begin);
    const { areas, beside } = wayThrough(begin, way, ahead, behind);
    if (areas.length === 1 && beside[0]!.length === 0) return [];
    const { design, size, cost } = begin;
    const foretold = beside.reduce((sum, { length }) => sum + length, 0);
    const most = areas.length * (slopesCost(design.values.length) + 4 + finerCost) + foretold * besideCost;
    const how = { pieces: undefined, radius, slopes: 0, slopesBeyond: 1 };
    const name = `${size} ${cost} ${areas.at(-1)} ${beside[0]}`;
    return [{ name, request: { start: design, areas, beside, ...how, most } }];
  });
}

/** Descents of every few designs from new fits of them, from which those on both sides are foretold anew. */
function renewing(front: readonly Refined[]): RefineRequest[] {
  const spread = apartInCost(front);
  const count = Math.ceil(spread.length / group);
  return Array.from({ length: count }, (_, g): RefineRequest => {
    const members = spread.slice(
      Math.round((g * spread.length) / count),
      Math.round(((g + 1) * spread.length) / count),
    );
    const { design, size } = members[members.length >> 1]!;
    const beside = members.map((member) => member.size / size - 1).filter((share) => share !== 0);
    const { pieces, slopes } = renewal;
    const most = (slopes + 1) * perSlopes(pieces) + finerCost + beside.length * besideCost;
    return { start: design, areas: [size], beside: [beside], radius, slopesBeyond: 0, ...renewal, most };
  });
}
