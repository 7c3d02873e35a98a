import type { Point } from './hypervolume.js';

/**
 * Inverted generational distance: mean distance from the points of a known front to the nearest point found (Coello
 * Coello & Reyes Sierra, MICAI 2004, 688-697). `scale` divides each objective (1 where left out); use the front's ranges
 * where the objectives have different units.
 */
export function invertedGenerationalDistance(
  found: readonly Point[],
  front: readonly Point[],
  scale?: ArrayLike<number>,
): number {
  let sum = 0;
  for (const target of front) {
    let nearest = Number.POSITIVE_INFINITY;
    for (const point of found) {
      let square = 0;
      for (let i = 0; i < target.length; i++) square += ((point[i]! - target[i]!) / (scale?.[i] ?? 1)) ** 2;
      nearest = Math.min(nearest, square);
    }
    sum += Math.sqrt(nearest);
  }
  return sum / front.length;
}

/** Two neighbours of a front and the step between them in one objective. */
export interface Gap {
  /** Indices into the points given; `before` has the smaller value. */
  readonly before: number;
  readonly after: number;
  /** The step, as a share of the whole range of that objective. */
  readonly share: number;
}

/**
 * The largest step between neighbours along one objective of a front, undefined where there are fewer than two points or
 * no range. 0.05 means: no hole is wider than a twentieth of the range.
 */
export function largestGap(points: readonly Point[], objective = 0): Gap | undefined {
  const order = points.map((_, index) => index);
  order.sort((a, b) => points[a]![objective]! - points[b]![objective]!);
  const value = (place: number) => points[order[place]!]![objective]!;
  const range = order.length > 1 ? value(order.length - 1) - value(0) : 0;
  if (!(range > 0)) return undefined;
  let widest = 1;
  for (let place = 2; place < order.length; place++) {
    if (value(place) - value(place - 1) > value(widest) - value(widest - 1)) widest = place;
  }
  return {
    before: order[widest - 1]!,
    after: order[widest]!,
    share: (value(widest) - value(widest - 1)) / range,
  };
}
