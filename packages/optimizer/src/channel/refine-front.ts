import { gapsOf, lengthsAlong, wayThrough } from './front-gaps.js';
import { afterLeg, type Lane, laneFrom, nextLeg } from './lane.js';
import { growthCost } from './largest-outline.js';
import { besideCost, finerCost, type RefineRequest, type RefineStart } from './refine.js';
import {
  costBetween,
  finish,
  frontOf,
  isFinished,
  type KnownOutline,
  nearestTo,
  perSlopes,
  type Refined,
  type RefinePlan,
  type Sized,
} from './refined.js';
import { Refinements } from './refinements.js';

/** First descents, spread over the front, as the budget allows: so much of it. */
const firstPlaces = 5;
const fewestPlaces = 3;
const firstShare = 0.25;
/** Their stages: coefficients of a half outline, and slopes after which knots go to where the curvature has gone. Fewer coefficients are quicker on the way. */
const stages = [
  { pieces: 16, slopes: 10, rough: true },
  { pieces: 24, slopes: 10, rough: false },
] as const;
const perFirst = stages.reduce((sum, { pieces, slopes }) => sum + slopes * perSlopes(pieces), 0);
/** A least area below the smallest of them, as a share of it: an outline that need not be as large may come to be better still. */
const shrunk = 0.5;
/** An outline larger than asked for by such a share would be the same if it might be smaller. */
const loose = 0.01;
/** Places that are brought to their end. */
const finishedPlaces = 16;
/** Where the front ends: shares of the largest outline, and those beside them. */
const atEnd = {
  pieces: finish.pieces,
  slopes: 4,
  areas: [0.999, 0.9965, 0.99, 0.98, 0.966, 0.95],
  beside: [[], [-0.003], [0.003, -0.003], [0.006, 0.003, -0.004], [0.009, 0.0045, -0.0045], [0.011, 0.0055]],
};
/** Fewer evaluations are not worth a refinement. */
export const leastForRefinement = 1610;
/** …and with fewer the front is followed one way only. */
const leastForBoth = 4000;
const radius = 0.05;

/**
 * Brings a front down by outlines of free curvature. At once: the largest outline, by its form alone, and some places along the front by descents in stages. From the largest
 * the front is followed down in size with few coefficients, from what is best at every size, while what was passed is brought to its end with many.
 */
export async function refineFront(known: readonly KnownOutline[], plan: RefinePlan): Promise<Refined[]> {
  const front = frontOf(known);
  const refining = new Refinements(plan);
  const { found } = refining;
  if (front.length === 0 || refining.left() < leastForRefinement) return found;
  const [first, second] = stages;
  const places = Math.max(fewestPlaces, Math.min(firstPlaces, Math.floor((firstShare * refining.left()) / perFirst)));
  const firsts = evenly(front, places);
  const [ends, ...begun] = await refining.ask([
    endFrom(front.at(-1)!.start),
    ...firsts.map((area) => descent(nearestTo(area, front).start, area, first)),
  ]);
  const goneOn = begun.flatMap(([one], k) => (one === undefined ? [] : [descent(one.design, firsts[k]!, second)]));
  const least = begun[0]?.[0];
  if (least !== undefined && least.size < (1 + loose) * firsts[0]!)
    goneOn.unshift(descent(least.design, shrunk * firsts[0]!, second));
  await followLanes(refining, laneFrom(ends ?? [], -1), goneOn);
  const tried = new Set<Refined>();
  for (let finishing = finishingFrom(found, tried); finishing.length > 0; finishing = finishingFrom(found, tried))
    if ((await refining.ask(finishing)).length < finishing.length) break;
  return found;
}

/** Follows the front down from its end, beside other descents, and up from the smallest of those. */
async function followLanes(
  refining: Refinements,
  down: Lane | undefined,
  others: readonly RefineRequest[],
): Promise<void> {
  const { found } = refining;
  const both = refining.left() > leastForBoth;
  let lanes = down === undefined ? [] : [down];
  for (let round = 0; lanes.length > 0 || round === 0; round++) {
    const known = frontOf(found);
    const legs = lanes.map((lane) => nextLeg(lane, known));
    const answers = await refining.ask(round === 0 ? [...legs, ...others] : legs);
    lanes = lanes.flatMap((lane, k) => afterLeg(lane, legs[k]!, answers[k] ?? [], known) ?? []);
    if (round === 0 && both) lanes.push(...[laneFrom(found, 1)].filter((lane) => lane !== undefined));
  }
}

interface Stage {
  readonly pieces: number;
  readonly slopes: number;
  readonly rough?: boolean;
}

function descent(start: RefineStart, area: number, { pieces, slopes, rough = false }: Stage): RefineRequest {
  const most = slopes * perSlopes(pieces) + finerCost;
  return { start, areas: [area], beside: [[]], pieces, radius, slopes, slopesBeyond: 0, rough, most };
}

/** To the largest outline that there is room for, and a little down from it, where the front is steepest. */
function endFrom(start: RefineStart): RefineRequest {
  const { slopes, pieces, areas, beside } = atEnd;
  const most = growthCost + areas.length * (slopes * perSlopes(pieces) + finerCost) + beside.flat().length * besideCost;
  return { start, largest: true, radius, slopesBeyond: slopes, most, ...atEnd };
}

/** To the designs that count: places along a coarse front, the largest first, each on through the gap above it; none where there is a front of such designs that is as good. */
function finishingFrom(found: readonly Refined[], tried: Set<Refined>): RefineRequest[] {
  if (found.length === 0) return [];
  const finished = frontOf(found.filter(isFinished));
  const front = frontOf(found).filter((one) => isFinished(one) || one.cost < costBetween(finished, one.size));
  const begins = frontOf(evenly(front, finishedPlaces).map((area) => nearestTo(area, front)));
  const gaps = gapsOf(begins);
  const requests = begins.flatMap((begin, k) => {
    if (isFinished(begin) || tried.has(begin)) return [];
    tried.add(begin);
    const { areas, beside, farApart } = wayThrough(begin, 1, gaps[k], gaps[k - 1]);
    const slopesBeyond = farApart ? finish.slopesFar : finish.slopesBeyond;
    const slopes = finish.slopes + (areas.length - 1) * slopesBeyond;
    const most = slopes * perSlopes(finish.pieces) + areas.length * finerCost + beside.flat().length * besideCost;
    return [{ start: begin.design, areas, beside, radius, ...finish, slopesBeyond, most }];
  });
  return requests.reverse();
}

/**
 * Sizes along a front, by growing size, both ends among them: evenly spread by size, its logarithm (an outline that is to shrink or grow by much crawls)
 * and cost together.
 */
function evenly(front: readonly Sized[], count: number): number[] {
  const [first, last] = [front[0]!, front.at(-1)!];
  if (!(last.size > first.size)) return Array.from({ length: count }, () => first.size);
  const along = lengthsAlong(front);
  const shares = front.map(
    ({ size }, i) =>
      (size - first.size) / (last.size - first.size) +
      Math.log(size / first.size) / Math.log(last.size / first.size) +
      along[i]! / along.at(-1)!,
  );
  let i = 0;
  return Array.from({ length: count }, (_, k) => {
    const wanted = (3 * k) / (count - 1);
    while (i < front.length - 2 && shares[i + 1]! < wanted) i++;
    const [below, above] = [shares[i]!, shares[i + 1]!];
    const share = Math.min(1, Math.max(0, (wanted - below) / (above - below)));
    return front[i]!.size + share * (front[i + 1]!.size - front[i]!.size);
  });
}
