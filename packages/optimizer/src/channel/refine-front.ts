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
/** A small outline goes to its end at once: only there does it tell whether it is better than larger ones. */
const ofSmall = { pieces: finish.pieces, slopes: 2 * finish.slopes };
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
/** With few evaluations, two ways from the first of these, side by side: nothing else keeps a second worker busy. */
const waysAtEnd = [
  { slopes: 4, slopesBeyond: 4, first: 1, end: 4 },
  { slopes: 8, slopesBeyond: 4, first: 4, end: 6 },
];
/** Fewer evaluations are not worth a refinement. */
export const leastForRefinement = 1610;
/** …and with fewer the front is followed one way only. */
const leastForBoth = 4000;
const radius = 0.05;

/**
 * Brings a front down by outlines of free curvature. At once: the largest outline, by its form alone, and some places along the front, and `small` ones beside it, by descents in stages. From the
 * largest the front is followed down in size with few coefficients, from what is best at every size, then what was passed is brought to its end with many.
 */
export async function refineFront(
  known: readonly KnownOutline[],
  small: readonly KnownOutline[],
  plan: RefinePlan,
): Promise<Refined[]> {
  const front = frontOf(known);
  const refining = new Refinements(plan);
  const { found } = refining;
  if (front.length === 0 || refining.left() < leastForRefinement) return found;
  const both = refining.left() > leastForBoth;
  const [first, second] = stages;
  const places = Math.max(fewestPlaces, Math.min(firstPlaces, Math.floor((firstShare * refining.left()) / perFirst)));
  const areas = evenly(front, places);
  const firsts = [
    ...areas.map((area) => ({ start: nearestTo(area, front).start, area })),
    ...small.map(({ start, size }) => ({ start, area: size })),
  ];
  const [ends = [], ...begun] = await refining.ask([
    endFrom(front.at(-1)!.start, both ? atEnd.areas.length : 1),
    ...firsts.map(({ start, area }) => descent(start, area, first)),
  ]);
  const [along, aside] = [begun.slice(0, places), begun.slice(places)];
  const goneOn = along.flatMap(([one], k) => (one === undefined ? [] : [descent(one.design, areas[k]!, second)]));
  const least = begun[0]?.[0];
  if (least !== undefined && least.size < (1 + loose) * areas[0]!)
    goneOn.unshift(descent(least.design, shrunk * areas[0]!, second));
  const smallest = aside.flatMap(([one], k) =>
    one === undefined ? [] : [descent(one.design, small[k]!.size, ofSmall)],
  );
  const tried = new Set<Refined>();
  if (both) await followBothWays(refining, laneFrom(ends, -1), { goneOn, smallest, aside: aside.flat() });
  else {
    const ways = ends.slice(0, 1).flatMap(waysDown);
    const answers = await refining.ask([...ways, ...goneOn, ...smallest]);
    await followDown(refining, laneFrom(answers.slice(0, ways.length).flat(), -1), tried);
  }
  for (let finishing = finishingFrom(found, tried); finishing.length > 0; finishing = finishingFrom(found, tried))
    if ((await refining.ask(finishing)).length < finishing.length) break;
  return found;
}

/** Descents beside the first legs of lanes: on along the front, and of small outlines, found `aside` so far: from where they lie no lane follows the front. */
interface Others {
  readonly goneOn: readonly RefineRequest[];
  readonly smallest: readonly RefineRequest[];
  readonly aside: readonly Refined[];
}

/** Follows the front down from its end, beside others, and up from the smallest of those along it. */
async function followBothWays(
  refining: Refinements,
  down: Lane | undefined,
  { goneOn, smallest, aside }: Others,
): Promise<void> {
  const { found } = refining;
  let lanes = down === undefined ? [] : [down];
  for (let round = 0; lanes.length > 0 || round === 0; round++) {
    const known = frontOf(found);
    const legs = lanes.map((lane) => nextLeg(lane, known));
    const answers = await refining.ask(round === 0 ? [...legs, ...goneOn, ...smallest] : legs);
    lanes = lanes.flatMap((lane, k) => afterLeg(lane, legs[k]!, answers[k] ?? [], known) ?? []);
    if (round > 0) continue;
    const apart = new Set([...aside, ...answers.slice(legs.length + goneOn.length).flat()]);
    const along = found.filter((one) => !apart.has(one));
    lanes.push(...[laneFrom(along, 1)].filter((lane) => lane !== undefined));
  }
}

/** Follows the front down from its end alone. Beside the lane, some of what it has passed is brought to its end: no other lane will come by. */
async function followDown(refining: Refinements, down: Lane | undefined, tried: Set<Refined>): Promise<void> {
  let beside: readonly RefineRequest[] = [];
  for (let lane = down; lane !== undefined; ) {
    const known = frontOf(refining.found);
    const leg = nextLeg(lane, known);
    const [reached = []] = await refining.ask([leg, ...beside]);
    const passed = frontOf(reached).filter((_, k) => k % 2 === 1);
    beside = finishing(passed, known, tried);
    lane = afterLeg(lane, leg, reached, known);
  }
  await refining.ask(beside);
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

/** To the largest outline that there is room for, and a little down from it, where the front is steepest, as far as the first `count` shares go. */
function endFrom(start: RefineStart, count: number): RefineRequest {
  const { slopes, pieces } = atEnd;
  const [areas, beside] = [atEnd.areas.slice(0, count), atEnd.beside.slice(0, count)];
  const most = growthCost + count * (slopes * perSlopes(pieces) + finerCost) + beside.flat().length * besideCost;
  return { start, largest: true, radius, pieces, slopes, slopesBeyond: slopes, areas, beside, most };
}

/** From the first of these on. */
function waysDown({ design, size }: Refined): RefineRequest[] {
  return waysAtEnd.map(({ first, end, slopes, slopesBeyond }) => {
    const [areas, beside] = [atEnd.areas.slice(first, end), atEnd.beside.slice(first, end)];
    const taken = slopes + (areas.length - 1) * slopesBeyond;
    const most = taken * perSlopes(atEnd.pieces) + areas.length * finerCost + beside.flat().length * besideCost;
    const how = { pieces: undefined, radius, slopes, slopesBeyond, beside };
    return { start: design, areas: areas.map((share) => (share / atEnd.areas[0]!) * size), ...how, most };
  });
}

/** To the designs that count: places along a coarse front; none where there is a front of such designs that is as good. */
function finishingFrom(found: readonly Refined[], tried: Set<Refined>): RefineRequest[] {
  if (found.length === 0) return [];
  const finished = frontOf(found.filter(isFinished));
  const front = frontOf(found).filter((one) => isFinished(one) || one.cost < costBetween(finished, one.size));
  const places = frontOf(evenly(front, finishedPlaces).map((area) => nearestTo(area, front)));
  const least = leastFrom(places[0]!, tried);
  return [...finishing(places, places, tried), ...least];
}

/** To the end of the smallest place of a front, which need not be as large; none that was tried. */
function leastFrom(begin: Refined, tried: Set<Refined>): RefineRequest[] {
  if (isFinished(begin) || tried.has(begin)) return [];
  tried.add(begin);
  const most = finish.slopes * perSlopes(finish.pieces) + finerCost;
  return [
    { start: begin.design, areas: [shrunk * begin.size], beside: [[]], radius, ...finish, slopesBeyond: 0, most },
  ];
}

/** Brings places to their end, the largest first, each on through the gap above it to the next of `front`; none that were tried. */
function finishing(places: readonly Refined[], front: readonly Refined[], tried: Set<Refined>): RefineRequest[] {
  const gaps = gapsOf(frontOf([...places, ...front]));
  const requests = places.flatMap((begin) => {
    if (isFinished(begin) || tried.has(begin)) return [];
    tried.add(begin);
    const [ahead, behind] = [gaps.find(({ below }) => below === begin), gaps.find(({ above }) => above === begin)];
    const { areas, beside, farApart } = wayThrough(begin, 1, ahead, behind);
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
