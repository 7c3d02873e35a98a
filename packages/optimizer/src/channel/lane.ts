import { power } from '@lumenfront/core';
import { lengthOf } from './front-gaps.js';
import { finerCost, type RefineRequest } from './refine.js';
import { costBetween, frontOf, nearestTo, perSlopes, type Refined } from './refined.js';

/** Where a front is followed up or down in size, outline after outline. */
export interface Lane {
  readonly way: 1 | -1;
  readonly head: Refined;
  /** Another one, which tells how steep the front is there. */
  readonly before: Refined;
}

/** Coefficients on the way; places of a leg; slopes for the first, from a new fit, and for each of the others. */
const pieces = 24;
const places = 4;
const slopes = { first: 8, beyond: 6 };
const radius = 0.05;
/** From one place to the next: change of the cost, as the last ones foretell it, and least and largest change of the area, as shares: an outline that is to change by much crawls. */
const costShare = 0.12;
const leastShare = 0.02;
const mostShare = 0.07;
/** A lane whose cost is above that of another outline of its size by such a share goes on from that one. */
const lost = 2e-3;
/** A leg that finds nothing better than what is known by such a share is the last one. */
const worthIt = 1e-3;
/** An outline larger than asked for by such a share need not be as large: the front ends there. */
const loose = 0.01;

/** From the smallest of some outlines; undefined where they are too few to tell how steep the front is. */
export function laneFrom(found: readonly Refined[], way: 1 | -1): Lane | undefined {
  const [head, before] = frontOf(found);
  return head && before && { way, head, before };
}

/** Asks for the next places: from where the lane has come to, or from what else is better there. */
export function nextLeg({ way, head, before }: Lane, front: readonly Refined[]): RefineRequest {
  const steep = Math.abs(lengthOf(front)(head, before) / Math.log(before.size / head.size));
  const share = Math.min(mostShare, Math.max(leastShare, costShare / Math.max(steep, 1e-9)));
  const better = costBetween(front, head.size) < head.cost * (1 - lost) ? nearestTo(head.size, front) : head;
  return {
    start: better.design,
    areas: Array.from({ length: places }, (_, k) => head.size * power(1 + share, way * (k + 1))),
    beside: Array.from({ length: places }, () => []),
    pieces,
    radius,
    slopes: slopes.first,
    slopesBeyond: slopes.beyond,
    most: (slopes.first + (places - 1) * slopes.beyond) * perSlopes(pieces) + places * finerCost,
  };
}

/** The lane after a leg; undefined where that did not even reach its first place, or found nothing better than the front that was known before. */
export function afterLeg(
  { way, head }: Lane,
  { areas }: RefineRequest,
  reached: readonly Refined[],
  known: readonly Refined[],
): Lane | undefined {
  const [next, before] = [...reached, head].sort((a, b) => way * (b.size - a.size));
  const wentOn = before !== undefined && way * (next!.size / areas[0]! - 1) > -loose;
  const better = reached.some(({ size, cost }) => cost < (1 - worthIt) * costBetween(known, size));
  return wentOn && better ? { way, head: next!, before } : undefined;
}
