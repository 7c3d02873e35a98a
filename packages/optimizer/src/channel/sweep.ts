import { nearestTo } from './descent-starts.js';
import type { FamilySearch, SizedStart } from './family-search.js';

/** Places of a sweep: an outline every 4 % of the front. */
const places = 25;
/** Parts of the front that are swept side by side. */
const lanes = 6;

export interface Sweep {
  /** Largest size that is aimed at. */
  readonly end: number;
  readonly direction: 'up' | 'down';
  /** Half a place aside of where sweeps usually go. */
  readonly aside: boolean;
}

/**
 * One sweep over a family's front, in steps: descents towards evenly spaced sizes, each from what its neighbour has just reached. What is
 * best at a size continues from one side or the other, so sweeps go up and down. A step gives its descents when its turn comes.
 */
export function sweepSteps(search: FamilySearch, { end, direction, aside }: Sweep): (() => SizedStart[])[] {
  const least = Math.min(end, ...search.known().map(({ size }) => size));
  const pitch = (end - least) / places;
  const perLane = Math.ceil(places / lanes);
  const up = direction === 'up';
  return Array.from({ length: perLane }, (_, step) => () => {
    const known = search.known();
    if (known.length === 0) return [];
    return Array.from({ length: lanes }, (_, lane) => lane * perLane + (up ? step : perLane - 1 - step))
      .filter((place) => place < places)
      .map((place) => {
        const size = least + (place + (aside ? 1 : 0.5)) * pitch;
        return { from: nearestTo(up ? size - pitch : size + pitch, known), goal: { size } };
      });
  });
}
