import { slopesCost } from '@lumenfront/core';
import { bestBySize } from '../front/index.js';
import type { RefineRequest, RefineResult, RefineStart, SolvedDesign } from './refine.js';

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
/**
 * Their stages: coefficients of a half outline, and slopes after which knots go to where the curvature has gone. Fewer coefficients are quicker on the
 * way, and an outline that has far to go comes there sooner when it is fitted anew every ten slopes than when it is not.
 */
const stages = [
  { pieces: 16, slopes: 10 },
  { pieces: 20, slopes: 10 },
  { pieces: 24, slopes: 10 },
] as const;
/** …the last of them again, so often at most, as long as that brings a share of the cost. */
const settling = 6;
const worthIt = 0.003;
/** Coefficients and slopes of the designs that count. */
const finish = { pieces: 40, slopes: 8 };
/** Values of such a design. */
export const mostValues = finish.pieces + 2;
/** What a set of slopes and the steps after it cost, in evaluations. */
const perSlopes = (pieces: number): number => slopesCost(pieces + 2) + 4;
const perFirst = stages.reduce((sum, { pieces, slopes }) => sum + slopes * perSlopes(pieces), 0);
const perFinish = finish.slopes * perSlopes(finish.pieces);
/** Fewer evaluations are not worth a refinement. */
export const leastForRefinement = fewestPlaces * perFirst;
const mostPlaces = 29;
const radius = 0.05;
/** Steps in area by which the largest outline grows, so many in one form. */
const growth = 1.015;
const growths = 3;
const growSlopes = 5;
/** Evaluations left for what follows a front. */
const reserveShare = 0.3;
/** A design may lack as much of its area, as a share, or of its walls, mm. */
const mostLack = 1e-5;

/**
 * Brings a front down by outlines of free curvature. Some places along it, by descents to their ends in stages; the largest goes on until no more fits;
 * then places between them, each from the neighbour that is nearer.
 */
export async function refineFront(known: readonly KnownOutline[], plan: RefinePlan): Promise<Refined[]> {
  const front = bestBySize(known, sizeOf, costOf);
  const found: Refined[] = [];
  if (front.length === 0 || plan.left() < leastForRefinement) return found;
  const refine = async (wanted: readonly Wanted[], { pieces, slopes }: Way): Promise<void> => {
    const most = slopes * perSlopes(pieces);
    const places = wanted.reduce((sum, { areas }) => sum + areas.length, 0);
    if (places === 0 || plan.left() < most * places || !plan.goOn()) return;
    const results = await plan.refine(
      wanted.map(({ areas, start }) => ({
        start,
        areas,
        pieces,
        radius,
        slopes,
        slopesBeyond: slopes,
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

  const last = stages.at(-1)!;
  /** Descents go on as long as they gain. */
  const settle = async (areas: readonly number[]): Promise<void> => {
    let costs = new Map<number, number>();
    for (let again = 0; again < settling; again++) {
      const moving = areas.filter(
        (area) => !((bestAt(area)?.cost ?? 0) > (1 - worthIt) * (costs.get(area) ?? Number.POSITIVE_INFINITY)),
      );
      if (moving.length === 0) return;
      costs = new Map(moving.map((area) => [area, bestAt(area)?.cost ?? Number.POSITIVE_INFINITY]));
      await refine(goneOn(moving), last);
    }
  };
  const firsts = evenly(front, Math.min(firstPlaces, Math.floor(plan.left() / perFirst)));
  for (const stage of stages) await refine(goneOn(firsts), stage);
  await settle(firsts);
  if (found.length === 0) return found;
  // The largest goes on until no more fits.
  for (let end = 0; plan.goOn(); ) {
    const largest = found.reduce<Refined | undefined>(
      (a, b) => (a === undefined || b.size > a.size ? b : a),
      undefined,
    );
    if (largest === undefined || !(largest.size > end)) break;
    end = largest.size;
    let area = end;
    const areas = Array.from({ length: growths }, () => {
      area *= growth;
      return area;
    });
    await refine([{ areas, start: largest.design }], { ...last, slopes: growSlopes });
  }
  const outlines = () => bestBySize<Sized>(found, sizeOf, costOf);
  const between = evenly(outlines(), 2 * firsts.length - 1);
  const beside = (area: number, way: 1 | -1) => found.filter(({ size }) => way * (size - area) > 0);
  for (const way of [1, -1] as const)
    await refine(
      between.flatMap((area) => {
        const others = beside(area, way);
        return others.length === 0
          ? []
          : [{ areas: [area], start: nearestTo(area, bestBySize(others, sizeOf, costOf)).design }];
      }),
      last,
    );
  await settle(between);
  await refine(goneOn(between), finish);
  const places = evenly(outlines(), mostPlaces).filter((_, k) => k % 2 === 1);
  if (plan.left() * (1 - reserveShare) > places.length * perFinish)
    await refine(
      places.map((area) => ({ areas: [area], start: nearestTo(area, bestBySize(found, sizeOf, costOf)).design })),
      finish,
    );
  return found;
}

interface Wanted {
  readonly start: RefineStart;
  readonly areas: readonly number[];
}

interface Way {
  readonly pieces: number;
  readonly slopes: number;
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
  const shareOf = ({ size, cost }: Sized) =>
    (size - first.size) / (last.size - first.size) +
    Math.log(size / first.size) / Math.log(last.size / first.size) +
    (cost - first.cost) / (last.cost - first.cost);
  let i = 0;
  return Array.from({ length: count }, (_, k) => {
    const wanted = (3 * k) / (count - 1);
    while (i < front.length - 2 && shareOf(front[i + 1]!) < wanted) i++;
    const [below, above] = [shareOf(front[i]!), shareOf(front[i + 1]!)];
    const share = Math.min(1, Math.max(0, (wanted - below) / (above - below)));
    return front[i]!.size + share * (front[i + 1]!.size - front[i]!.size);
  });
}
