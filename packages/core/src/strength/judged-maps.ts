import { type FramedFields, framedCount } from '../edge/index.js';
import type { PlaceMaps } from '../host/index.js';
import type { JudgedPoint } from './judged-points.js';

/** Degree of the moments that tell a judged point's stress. */
export function judgedDegree({ degrees }: Pick<PlaceMaps, 'degrees'>, { of: [first, second] }: JudgedPoint): number {
  return Math.max(degrees[first]!, degrees[second]!);
}

/** Undisturbed stress at a judged point, of component `c` of `(n, t, nt)` among those of all places. */
export function judgedStill(atPlaces: Float64Array, { of: [first, second], share }: JudgedPoint, c: number): number {
  const [from, to] = [atPlaces[3 * first + c]!, atPlaces[3 * second + c]!];
  return from + share * (to - from);
}

/** One part of one response's map, as the model holds it (`PlaceMaps.change`). */
export interface PlaceMap {
  /** Adds the row of component `c` of `(n, t, nt)` of a judged point to `out`, which has room for its degree. */
  addRow(point: JudgedPoint, c: number, out: Float64Array): void;
}

export function placeMap({ degrees }: Pick<PlaceMaps, 'degrees'>, of: FramedFields, all: Float64Array): PlaceMap {
  const begin = new Int32Array(degrees.length + 1);
  degrees.forEach((degree, p) => {
    begin[p + 1] = begin[p]! + 3 * framedCount(of, degree);
  });
  const add = (p: number, c: number, weight: number, out: Float64Array) => {
    const length = framedCount(of, degrees[p]!);
    for (let j = 0, from = begin[p]! + c * length; j < length; j++, from++) out[j]! += weight * all[from]!;
  };
  return {
    addRow({ of: [first, second], share }, c, out) {
      if (share < 1) add(first, c, 1 - share, out);
      if (share > 0) add(second, c, share, out);
    },
  };
}
