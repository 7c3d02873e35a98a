import { power, slopesCost } from '@lumenfront/core';
import { hypervolume } from '../front/index.js';
import { type Beside, between, type Gap, gapsOf, groupsOf, reach, wayThrough } from './front-gaps.js';
import { besideCost, finerCost, type RefineRequest } from './refine.js';
import { costOf, finish, finishedOf, frontOf, perSlopes, type Refined, type RefinePlan } from './refined.js';
import { Refinements } from './refinements.js';
import { areApart } from './shape-distance.js';

/** A later round begins where an earlier one has found something better. */
const rounds = 4;
/** Around a cost means within this factor. */
const around = 1.05;
const radius = 0.03;
/** Slopes where designs lie too far apart to be foretold. */
const slopesFar = 4;
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
/** At the end designs are fitted anew, and descend once more, as long as the last round added such a share to the hypervolume for every evaluation. */
const worthRenewal = 1e-6;
/** The same of shapes that go on, and what they are to have added for another renewal. */
const worthExtending = 2e-7;
const worthAnother = 5e-4;
const renewal = { pieces: finish.pieces, slopes: 2, enough: finish.enough };

/** Why a front was not brought down further. */
export type FollowStop = 'nothing more gained' | 'budget spent' | 'aborted';

export interface FollowedFront {
  readonly found: readonly Refined[];
  readonly stop: FollowStop;
}

/**
 * Fills a refined front between its designs, then polishes what is not yet the best nearby, and fills it once more and finer, as far as the budget lasts. With `allow`, only around that cost.
 */
export async function followFront(found: readonly Refined[], plan: RefinePlan, allow?: number): Promise<FollowedFront> {
  const refining = new Refinements(plan, finishedOf(found));
  const begun = new Set<string>();
  const front = () => frontOf(refining.found);
  const kept = keptForGaps * plan.left();
  const refine = async (requests: readonly RefineRequest[], spare: number): Promise<boolean> =>
    (await refining.ask(requests, spare)).length === requests.length;
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

  // What a hypervolume is measured from.
  const dearest = Math.max(0, ...front().map(costOf));
  const worth = () =>
    hypervolume(
      front().map(({ size, cost }) => [-size, cost]),
      [0, dearest],
    );
  /** Begins to count what the hypervolume grows by, as a share, for every evaluation. */
  const countGains = (): (() => number) => {
    const [before, left] = [worth(), plan.left()];
    return () => (worth() / before - 1) / Math.max(1, left - plan.left());
  };

  /** Where a front goes from one shape to another, either may be the better one beyond: it goes on as long as it is. */
  const extend = async (): Promise<boolean> => {
    let whole = true;
    let ways = gaps()
      .filter(({ below, above }) => areApart(below.design, above.design))
      .flatMap(extensions);
    for (let round = 0; round < mostExtensions && whole && ways.length > 0; round++) {
      const before = front();
      const gained = countGains();
      const answers = await refining.ask(ways.map(extending), kept);
      whole = answers.length === ways.length;
      ways = answers.flatMap(([reached], k) =>
        reached !== undefined && reached.cost < (1 - worthExtension) * costAt(before, reached.size)
          ? [{ ...ways[k]!, from: reached }]
          : [],
      );
      if (gained() < worthExtending) break;
    }
    return whole;
  };

  // Knots go to where the curvature has gone, and what is not yet the best nearby comes down; that may open gaps, which are filled with what was kept for them.
  let renewals = 0;
  const renew = async (): Promise<boolean> => {
    let whole = await fillGaps();
    for (let worthIt = true; whole && worthIt; ) {
      const gained = countGains();
      whole = await refine(renewing(front().filter(isNear), renewals++ % 2 === 1), kept);
      whole = (await fillGaps()) && whole;
      worthIt = gained() > worthRenewal;
    }
    return whole;
  };

  let whole = await renew();
  if (whole) {
    const before = worth();
    whole = await extend();
    if (whole && worth() > (1 + worthAnother) * before) whole = await renew();
    else whole = (await fillGaps()) && whole;
  }
  // A pick closes in on one size anyway.
  if (whole && allow === undefined) whole = await refine(between(front()).map(foretelling), 0);
  const stop = plan.goOn() ? (whole ? 'nothing more gained' : 'budget spent') : 'aborted';
  return { found: [...found, ...refining.found], stop };
}

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
    const { areas, beside, farApart } = wayThrough(begin, way, ahead, behind);
    if (areas.length === 1 && beside[0]!.length === 0) return [];
    const { design, size, cost } = begin;
    const foretold = beside.reduce((sum, { length }) => sum + length, 0);
    const slopesBeyond = farApart ? slopesFar : 1;
    const each = slopesBeyond * (slopesCost(design.values.length) + 4) + finerCost;
    const most = areas.length * each + foretold * besideCost;
    const how = { pieces: undefined, radius, slopes: 0, slopesBeyond };
    const name = `${size} ${cost} ${areas.at(-1)} ${beside[0]}`;
    return [{ name, request: { start: design, areas, beside, ...how, most } }];
  });
}

/** What the slopes at a design foretell beside it. */
function foretelling({ from: { design, size }, shares }: Beside): RefineRequest {
  const most = slopesCost(design.values.length) + 4 + finerCost + shares.length * besideCost;
  const how = { pieces: undefined, radius, slopes: 0, slopesBeyond: 0 };
  return { start: design, areas: [size], beside: [shares], ...how, most };
}

/** Descents of every few designs from new fits of them, from which those on both sides are foretold anew. */
function renewing(front: readonly Refined[], shifted: boolean): RefineRequest[] {
  return groupsOf(front, shifted).map((members): RefineRequest => {
    const { design, size } = members[members.length >> 1]!;
    const beside = members.map((member) => member.size / size - 1).filter((share) => share !== 0);
    const { pieces, slopes } = renewal;
    const most = (slopes + 1) * perSlopes(pieces) + finerCost + beside.length * besideCost;
    return { start: design, areas: [size], beside: [beside], radius, slopesBeyond: 0, ...renewal, most };
  });
}
