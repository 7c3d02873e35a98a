import { power, slopesCost } from '@lumenfront/core';
import { bestBySize } from '../front/index.js';
import { finerCost, type RefineRequest, type RefineResult, type RefineStart, type SolvedDesign } from './refine.js';

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
  { pieces: 16, slopes: 10 },
  { pieces: 24, slopes: 10 },
] as const;
/** From neighbours, in so many rounds at most, as long as a neighbour has gained such a share of its cost. */
const across = { pieces: 24, slopes: 8 };
const mostExchanges = 2;
const worthExchange = 0.002;
/** Coefficients and slopes of the designs that count… */
const finish = { pieces: 40, slopes: 25 };
/** …again, so often at most, as long as that brings a share of the cost. */
const settling = 2;
/** Neighbours above and below. */
const ways = [1, -1] as const;
const worthIt = 0.002;
/** Values of such a design. */
export const mostValues = finish.pieces + 2;
/** What a set of slopes and the steps after it cost, in evaluations. */
const perSlopes = (pieces: number): number => slopesCost(pieces + 2) + 4;
/** …and what it usually takes to finish a place. */
const perFinished = 12 * perSlopes(finish.pieces);
const perFirst = stages.reduce((sum, { pieces, slopes }) => sum + slopes * perSlopes(pieces), 0);
/** Fewer evaluations are not worth a refinement. */
export const leastForRefinement = (fewestPlaces + shrunk.length) * perFirst;
const radius = 0.05;
interface Growth {
  readonly pieces: number;
  readonly growth: number;
}
/** Steps in area by which the largest outline grows, so many in one form; smaller ones of the finished one. */
const growing: Growth = { pieces: across.pieces, growth: 1.015 };
const grown: Growth = { pieces: finish.pieces, growth: 1.003 };
const growths = 3;
const growSlopes = 5;
/** A design may lack as much of its area, as a share, or of its walls, mm. */
const mostLack = 1e-5;

/**
 * Brings a front down by outlines of free curvature. Some places along it, by descents to their ends in stages; the largest goes on until no more fits;
 * then places between them, each from the neighbours on both sides, until none gains from another; the best of each with many coefficients.
 */
export async function refineFront(known: readonly KnownOutline[], plan: RefinePlan): Promise<Refined[]> {
  const front = bestBySize(known, sizeOf, costOf);
  const found: Refined[] = [];
  if (front.length === 0 || plan.left() < leastForRefinement) return found;
  const refine = async (wanted: readonly Wanted[], { pieces, slopes }: Way): Promise<void> => {
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
  const grow = async ({ pieces, growth }: Growth): Promise<void> => {
    for (let end = 0; plan.goOn(); ) {
      const largest = found.reduce((a, b) => (b.size > a.size ? b : a));
      if (!(largest.size > end)) break;
      end = largest.size;
      const areas = Array.from({ length: growths }, (_, k) => end * power(growth, k + 1));
      await refine([{ areas, start: largest.design }], { pieces, slopes: growSlopes });
    }
  };
  await grow(growing);
  const outlines = () => bestBySize<Sized>(found, sizeOf, costOf);
  const between = evenly(outlines(), 2 * firsts.length - 1);
  const beside = (area: number, way: 1 | -1): Wanted[] => {
    const others = found.filter(({ size }) => way * (size - area) > 0);
    return others.length === 0
      ? []
      : [{ areas: [area], start: nearestTo(area, bestBySize(others, sizeOf, costOf)).design }];
  };
  const costAt = (area: number): number => bestAt(area)?.cost ?? Number.POSITIVE_INFINITY;
  // What a place has gained its neighbours may gain as well, each in its turn.
  let gained = between.map(() => true);
  const reserve = between.length * perFinished;
  for (let exchange = 0; exchange < mostExchanges && gained.includes(true); exchange++) {
    if (exchange > 0 && plan.left() < reserve) break;
    const before = between.map(costAt);
    for (const way of ways)
      await refine(
        between.flatMap((area, k) => ((gained[k + way] ?? exchange === 0) ? beside(area, way) : [])),
        across,
      );
    gained = between.map((area, k) => costAt(area) < (1 - worthExchange) * before[k]!);
  }
  let costs = new Map<number, number>();
  for (let again = 0; again < settling; again++) {
    const moving = between.filter(
      (area) => !(costAt(area) > (1 - worthIt) * (costs.get(area) ?? Number.POSITIVE_INFINITY)),
    );
    costs = new Map(moving.map((area) => [area, costAt(area)]));
    await refine(goneOn(moving), finish);
  }
  await grow(grown);
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
