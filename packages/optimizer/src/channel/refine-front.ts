import { type CurvatureDesign, slopesCost } from '@lumenfront/core';
import { bestBySize } from '../front/index.js';
import type { RefineRequest, RefineResult, RefineStart } from './refine.js';

/** An outline to begin from, with its figures. */
export interface KnownOutline {
  readonly start: RefineStart;
  readonly size: number;
  readonly cost: number;
}

/** A refined design; its cost with twice the nodes of the descent. */
export interface Refined {
  readonly design: CurvatureDesign;
  readonly size: number;
  readonly cost: number;
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

/** Coefficients of a half outline and its nodes over the whole turn: 2.7 to a coefficient, fewer than 2.2 hide false gains. */
const pieces = 24;
const nodes = 128;
/** What a set of slopes and the steps after it cost, in evaluations. */
const perSlopes = slopesCost(pieces + 2) + 4;
const mostPlaces = 40;
const fewestPlaces = 8;
/** Evaluations to a place: two sweeps. */
const perPlace = 12 * perSlopes;
/** Fewer evaluations are not worth a refinement. */
export const leastForRefinement = fewestPlaces * perPlace;
/** First descents, spread over the front, go to their ends; the sweeps between them are short. */
const firstPlaces = 8;
const firstSlopes = 14;
const sweepSlopes = 5;
const radius = 0.05;
/** Parts of the front that are swept side by side. */
const lanes = 4;
/** Mean gain of the places by a pair of sweeps, as a share, below which another is not worth it. */
const leastGain = 5e-4;
/** A design may lack as much of its area, as a share, or of its walls, mm. */
const mostLack = 1e-5;

interface Place {
  /** Least area, mm2. */
  readonly area: number;
  best?: Refined;
  /** Designs from which a descent to this place has begun. */
  readonly tried: Set<CurvatureDesign>;
}

/**
 * Brings a front down by outlines of free curvature: places along it, evenly by size and cost; a few descents to their ends; then sweeps
 * up and down, each place beginning from what its neighbour has just reached, until they bring nothing more or the budget is spent.
 */
export async function refineFront(known: readonly KnownOutline[], plan: RefinePlan): Promise<Refined[]> {
  const front = bestBySize(known, sizeOf, costOf);
  const count = Math.min(mostPlaces, Math.floor(plan.left() / perPlace));
  if (front.length === 0 || count < fewestPlaces || !plan.goOn()) return [];
  const places = evenly(front, count).map((area): Place => ({ area, tried: new Set() }));
  const found: Refined[] = [];

  const refine = async (wanted: readonly { place: Place; start: RefineStart }[], slopes: number): Promise<void> => {
    const affordable = wanted.slice(0, Math.floor(plan.left() / (slopes * perSlopes)));
    if (affordable.length === 0) return;
    const most = Math.floor(plan.left() / affordable.length);
    const results = await plan.refine(
      affordable.map(({ place, start }) => ({ start, area: place.area, pieces, nodes, radius, slopes, most })),
    );
    for (const result of results) {
      plan.note(result);
      const { design, peak: cost, area: size, violation, locallyOptimalWithin } = result;
      if (design === undefined || !(violation <= mostLack && cost > 0)) continue;
      const one = { design, size, cost, locallyOptimalWithin };
      found.push(one);
      for (const place of places)
        if (size >= place.area && (place.best === undefined || cost < place.best.cost)) place.best = one;
    }
  };
  /** From the neighbour, or where that was tried, on from the place's own best. */
  const nextStart = (place: Place, beside: Place | undefined) => {
    const from = [beside?.best, place.best].find((one) => one !== undefined && !place.tried.has(one.design));
    if (from === undefined) return [];
    place.tried.add(from.design);
    return [{ place, start: from.design }];
  };

  const firsts = Array.from({ length: firstPlaces }, (_, k) => Math.round((k * (count - 1)) / (firstPlaces - 1)));
  await refine(
    firsts.map((k) => ({ place: places[k]!, start: nearestTo(places[k]!.area, front).start })),
    firstSlopes,
  );
  if (!plan.goOn()) return found;
  const perLane = Math.ceil(count / lanes);
  for (;;) {
    const before = places.map(({ best }) => best?.cost ?? Number.POSITIVE_INFINITY);
    for (const way of [1, -1])
      for (let step = 0; step < perLane; step++) {
        const now = Array.from({ length: lanes }, (_, lane) => lane * perLane + (way > 0 ? step : perLane - 1 - step));
        await refine(
          now.filter((k) => k < count).flatMap((k) => nextStart(places[k]!, places[k - way])),
          sweepSlopes,
        );
        if (!plan.goOn()) return found;
      }
    const gains = places.map(({ best }, k) => (best === undefined ? 0 : Math.min(1, 1 - best.cost / before[k]!)));
    if (!(gains.reduce((a, b) => a + b) / count >= leastGain) || plan.left() < lanes * sweepSlopes * perSlopes)
      return found;
  }
}

const sizeOf = ({ size }: { readonly size: number }): number => size;
const costOf = ({ cost }: { readonly cost: number }): number => cost;

function nearestTo(size: number, known: readonly KnownOutline[]): KnownOutline {
  return known.reduce((a, b) => (Math.abs(b.size - size) < Math.abs(a.size - size) ? b : a));
}

/** Sizes along a front, by growing size: evenly spread by size and cost together, both ends among them. */
function evenly(front: readonly KnownOutline[], count: number): number[] {
  const [first, last] = [front[0]!, front.at(-1)!];
  const shareOf = ({ size, cost }: KnownOutline) =>
    (size - first.size) / (last.size - first.size) + (cost - first.cost) / (last.cost - first.cost);
  if (!(last.size > first.size)) return Array.from({ length: count }, () => first.size);
  let i = 0;
  return Array.from({ length: count }, (_, k) => {
    const wanted = (2 * k) / (count - 1);
    while (i < front.length - 2 && shareOf(front[i + 1]!) < wanted) i++;
    const [below, above] = [shareOf(front[i]!), shareOf(front[i + 1]!)];
    const share = Math.min(1, Math.max(0, (wanted - below) / (above - below)));
    return front[i]!.size + share * (front[i + 1]!.size - front[i]!.size);
  });
}
