import { power, slopesCost } from '@lumenfront/core';
import { bestBySize } from '../front/index.js';
import { gapsOf, lengthsAlong, type Way, wayThrough } from './front-gaps.js';
import { growthCost } from './largest-outline.js';
import {
  besideCost,
  finerCost,
  type RefineRequest,
  type RefineResult,
  type RefineStart,
  type SolvedDesign,
} from './refine.js';

interface Sized {
  readonly size: number;
  readonly cost: number;
}

/** An outline to begin from, with its figures. */
export interface KnownOutline extends Sized {
  readonly start: RefineStart;
}

/** A refined design; its cost with twice the nodes of the descent. */
export interface Refined extends Sized {
  readonly design: SolvedDesign;
  readonly locallyOptimalWithin: number;
}

/** What a refinement works with. */
export interface RefinePlan {
  refine(requests: readonly RefineRequest[]): Promise<readonly RefineResult[]>;
  /** Evaluations that are left. */
  left(): number;
  /** Told of every result; false when the search is to end. */
  note(result: RefineResult): void;
  goOn(): boolean;
}

/** First descents, spread over the front, as the budget allows. */
const firstPlaces = 8;
const fewestPlaces = 5;
/** Least areas below the smallest known, as shares of it: an outline that need not be as large may come to be better still. */
const shrunk = [0.3, 0.6];
/** Their stages: coefficients of a half outline, and slopes after which knots go to where the curvature has gone. Fewer coefficients are quicker on the way. */
const stages = [
  { pieces: 16, slopes: 10, rough: true },
  { pieces: 24, slopes: 10, rough: false },
] as const;
/** Places between them, as a multiple. */
const placesBetween = 1.4;
/** From neighbours. */
const across = { pieces: 24, slopes: 8 };
/**
 * Coefficients of the designs that count, slopes of those that begin a way through a gap and of those on it, and the share that is to be gained by another.
 */
export const finish = { pieces: 40, slopes: 20, slopesBeyond: 2, enough: 5e-4 };
/** Where the front ends: shares of the largest outline. */
const atEnd = { pieces: finish.pieces, slopes: 4, shares: [0.999, 0.9965, 0.99, 0.98] };
/** Neighbours above and below. */
const ways = [1, -1] as const;
/** Values of such a design. */
export const mostValues = finish.pieces + 2;
/** What a set of slopes and the steps after it cost, in evaluations. */
export const perSlopes = (pieces: number): number => slopesCost(pieces + 2) + 4;
const perFirst = stages.reduce((sum, { pieces, slopes }) => sum + slopes * perSlopes(pieces), 0);
/** Fewer evaluations are not worth a refinement. */
export const leastForRefinement = (fewestPlaces + shrunk.length) * perFirst;
const radius = 0.05;
/** Step in area by which the largest coarse outline grows, so many in one form. */
const growth = 1.015;
const growths = 3;
const growSlopes = 5;
/** A design may lack as much of its area, as a share, or of its walls, mm. */
const mostLack = 1e-5;

/**
 * Brings a front down by outlines of free curvature. Some places along it, by descents to their ends in stages; the largest goes on until no more fits;
 * then places between them, each from the neighbours on both sides; from the best of each, with many coefficients, through the gap above it.
 */
export async function refineFront(known: readonly KnownOutline[], plan: RefinePlan): Promise<Refined[]> {
  const front = bestBySize(known, sizeOf, costOf);
  const found: Refined[] = [];
  if (front.length === 0 || plan.left() < leastForRefinement) return found;
  const refine = async (wanted: readonly Wanted[], { pieces, slopes, rough = false }: Stage): Promise<void> => {
    const most = slopes * perSlopes(pieces) + finerCost;
    let left = plan.left();
    const affordable = wanted.filter(({ areas }) => {
      left -= most * areas.length;
      return left >= 0;
    });
    if (affordable.length === 0 || !plan.goOn()) return;
    const results = await plan.refine(
      affordable.map(({ areas, start }) => ({
        start,
        areas,
        pieces,
        radius,
        slopes,
        slopesBeyond: slopes,
        rough,
        beside: areas.map(() => []),
        most: most * areas.length,
      })),
    );
    for (const result of results) {
      plan.note(result);
      found.push(...refinedOf(result));
    }
  };
  /** The best of an area. */
  const bestAt = (area: number): Refined | undefined =>
    found.reduce<Refined | undefined>(
      (a, b) => (b.size >= area && (a === undefined || b.cost < a.cost) ? b : a),
      undefined,
    );
  const goneOn = (areas: readonly number[]): Wanted[] =>
    areas.map((area) => ({ areas: [area], start: bestAt(area)?.design ?? nearestTo(area, front).start }));

  const [first, second] = stages;
  const firsts = [
    ...shrunk.map((share) => share * front[0]!.size),
    ...evenly(front, Math.min(firstPlaces, Math.floor(plan.left() / perFirst) - shrunk.length)),
  ];
  await refine(
    firsts.map((area): Wanted => ({ areas: [area], start: nearestTo(area, front).start })),
    first,
  );
  await refine(goneOn(firsts), second);
  if (found.length === 0) return found;
  /** The largest goes on until no more fits. */
  for (let end = 0; plan.goOn(); ) {
    const largest = found.reduce((a, b) => (b.size > a.size ? b : a));
    if (!(largest.size > end)) break;
    end = largest.size;
    const areas = Array.from({ length: growths }, (_, k) => end * power(growth, k + 1));
    await refine([{ areas, start: largest.design }], { pieces: across.pieces, slopes: growSlopes });
  }
  const outlines = () => bestBySize<Sized>(found, sizeOf, costOf);
  const between = evenly(outlines(), Math.round(placesBetween * firsts.length));
  const tried = new Set<string>();
  const beside = (area: number, way: 1 | -1): Wanted[] => {
    const others = found.filter(({ size }) => way * (size - area) > 0);
    if (others.length === 0) return [];
    const nearest = nearestTo(area, bestBySize(others, sizeOf, costOf));
    // The same start comes to the same.
    const name = `${nearest.size} ${nearest.cost} to ${area}`;
    if (tried.has(name)) return [];
    tried.add(name);
    return [{ areas: [area], start: nearest.design }];
  };
  // What a place has found its neighbours may do well with, too, and theirs.
  for (const way of [...ways, ...ways])
    await refine(
      between.flatMap((area) => beside(area, way)),
      across,
    );
  const end = endFrom(found.reduce((a, b) => (b.size > a.size ? b : a)));
  const finishing = finishingFrom(
    bestBySize(
      between.flatMap((area) => bestAt(area) ?? []),
      sizeOf,
      costOf,
    ),
    plan.left() - end.most,
  );
  const requests = [end, ...finishing];
  if (end.most <= plan.left() && plan.goOn())
    for (const result of await plan.refine(requests)) {
      plan.note(result);
      found.push(...refinedOf(result));
    }
  return found;
}

/** From the largest of a coarse front to the largest that there is room for, and a little down from it, where the front is steepest. */
function endFrom({ design }: Refined): RefineRequest {
  const { pieces, slopes, shares } = atEnd;
  const beside = shares.map(() => []);
  const most = growthCost + shares.length * (slopes * perSlopes(pieces) + finerCost);
  return { start: design, largest: true, areas: shares, beside, pieces, radius, slopes, slopesBeyond: slopes, most };
}

/** To the designs that count, from each of a coarse front on through the gap above it; without the gaps where all that is more than is `left`. */
function finishingFrom(front: readonly Refined[], left: number): RefineRequest[] {
  const gaps = gapsOf(front);
  const finishing = ({ areas, beside }: Way, { design }: Refined): RefineRequest => {
    const foretold = beside.reduce((sum, { length }) => sum + length, 0);
    const slopes = finish.slopes + (areas.length - 1) * finish.slopesBeyond;
    const most = slopes * perSlopes(finish.pieces) + areas.length * finerCost + foretold * besideCost;
    return { start: design, areas, beside, radius, ...finish, most };
  };
  const whole = front.map((begin, k) => finishing(wayThrough(begin, 1, gaps[k], gaps[k - 1]), begin));
  if (whole.reduce((sum, { most }) => sum + most, 0) <= left) return whole;
  const alone = front.map((begin) => finishing({ areas: [begin.size], beside: [[]] }, begin));
  return alone.slice(0, Math.floor(left / (alone[0]?.most ?? left)));
}

interface Wanted {
  readonly start: RefineStart;
  readonly areas: readonly number[];
}

interface Stage {
  readonly pieces: number;
  readonly slopes: number;
  readonly rough?: boolean;
}

/** Those of many coefficients, from which a front can be followed; all where there are none. */
export function finishedOf(found: readonly Refined[]): readonly Refined[] {
  const finished = found.filter(({ design }) => design.form.knots.length + 1 === finish.pieces);
  return finished.length > 1 ? finished : found;
}

/** The designs of a result that keep their limits. */
export function refinedOf({ reached }: RefineResult): Refined[] {
  return reached
    .filter(({ violation, cost }) => violation <= mostLack && cost > 0)
    .map(({ design, area, cost, locallyOptimalWithin }) => ({ design, size: area, cost, locallyOptimalWithin }));
}

const sizeOf = ({ size }: Sized): number => size;
const costOf = ({ cost }: Sized): number => cost;

function nearestTo<T extends Sized>(size: number, known: readonly T[]): T {
  return known.reduce((a, b) => (Math.abs(b.size - size) < Math.abs(a.size - size) ? b : a));
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
