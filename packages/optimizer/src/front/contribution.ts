import { covers } from './dominance.js';
import { exclusiveVolume, type Point, worseOfBoth } from './hypervolume.js';

/**
 * Thins out a set of points to `size` of them: again and again the point goes that adds least to the hypervolume (Beume,
 * Naujoks & Emmerich, Eur. J. Oper. Res. 181 (2007) 1653-1669, eq. 7). Returns the indices that stay, ascending. Of equal
 * contributions the later point goes. Without a reference point the ends of a front of two objectives stay, whatever they add;
 * with more objectives it is `referenceFor` the points.
 *
 * Two objectives: O(n log n) to begin with and O(n) for each point that goes. More: contributions are computed once and
 * then corrected by what the departed point shared with each other one.
 */
export function thinOut(points: readonly Point[], size: number, reference?: Point): number[] {
  if (points.length <= size) return points.map((_, index) => index);
  if (points[0]!.length !== 2) return thinOutAny(points, size, reference ?? referenceFor(points));
  // From infinitely far away, what the ends add is infinite.
  return thinOutPairs(points, size, reference ?? [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY]);
}

/**
 * Reference point for a set whose scale is not known: the worst of each objective, and a tenth of its spread beyond it.
 * With 100 points on a front that is far enough for the front's ends to stay (Auger, Bader, Brockhoff & Zitzler,
 * FOGA 2009, 87-102).
 */
export function referenceFor(points: readonly Point[]): Float64Array {
  const reference = new Float64Array(points[0]!.length);
  for (let i = 0; i < reference.length; i++) {
    let best = Number.POSITIVE_INFINITY;
    let worst = Number.NEGATIVE_INFINITY;
    for (const point of points) {
      best = Math.min(best, point[i]!);
      worst = Math.max(worst, point[i]!);
    }
    // Without any spread, any step will do that rounding does not swallow.
    reference[i] = worst + (0.1 * (worst - best) || Math.max(1, Math.abs(worst)));
  }
  return reference;
}

function thinOutPairs(points: readonly Point[], size: number, reference: Point): number[] {
  const order = points.map((_, index) => index);
  order.sort((a, b) => points[a]![0]! - points[b]![0]! || points[a]![1]! - points[b]![1]! || a - b);

  // Dominated points and those beyond the reference add nothing: they go first, the last given first.
  const chain: number[] = [];
  const idle: number[] = [];
  for (const index of order) {
    const point = points[index]!;
    const height = chain.length > 0 ? points[chain[chain.length - 1]!]![1]! : reference[1]!;
    (point[0]! < reference[0]! && point[1]! < height ? chain : idle).push(index);
  }
  if (chain.length <= size) {
    idle.sort((a, b) => a - b);
    return [...chain, ...idle.slice(0, size - chain.length)].sort((a, b) => a - b);
  }

  const contribution = chain.map((_, place) => corner(points, chain, place, reference));
  while (chain.length > size) {
    let least = 0;
    for (let place = 1; place < chain.length; place++) {
      const difference = contribution[place]! - contribution[least]!;
      if (difference < 0 || (difference === 0 && chain[place]! > chain[least]!)) least = place;
    }
    chain.splice(least, 1);
    contribution.splice(least, 1);
    if (least > 0) contribution[least - 1] = corner(points, chain, least - 1, reference);
    if (least < chain.length) contribution[least] = corner(points, chain, least, reference);
  }
  return chain.sort((a, b) => a - b);
}

/** What the point at `place` of a chain sorted by the first objective dominates alone: a rectangle. */
function corner(points: readonly Point[], chain: readonly number[], place: number, reference: Point): number {
  const point = points[chain[place]!]!;
  const right = place + 1 < chain.length ? points[chain[place + 1]!]![0]! : reference[0]!;
  const top = place > 0 ? points[chain[place - 1]!]![1]! : reference[1]!;
  return (right - point[0]!) * (top - point[1]!);
}

function thinOutAny(points: readonly Point[], size: number, reference: Point): number[] {
  const kept = points.map((_, index) => index);
  const contribution = points.map((point, index) => {
    const others = points.filter((_, other) => other !== index);
    return exclusiveVolume(point, others, reference);
  });

  while (kept.length > size) {
    let least = 0;
    for (let place = 1; place < kept.length; place++) {
      if (contribution[kept[place]!]! <= contribution[kept[least]!]!) least = place;
    }
    const gone = points[kept[least]!]!;
    kept.splice(least, 1);
    for (const index of kept) {
      const shared = worseOfBoth(points[index]!, gone);
      // Most pairs share nothing of their own: a third point covers it.
      if (kept.some((other) => other !== index && covers(points[other]!, shared))) continue;
      const others = kept.filter((other) => other !== index).map((other) => points[other]!);
      contribution[index]! += exclusiveVolume(shared, others, reference);
    }
  }
  return kept;
}
