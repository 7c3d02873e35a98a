import type { Solution } from '../problem.js';
import { dominates } from './dominance.js';

/**
 * Rank of every solution under constrained domination: 0 for those that none dominates, 1 for those that only rank 0
 * dominates, and so on. Infeasible ones follow after all feasible ones, by their violation.
 */
export function ranks(solutions: readonly Solution[]): Int32Array {
  const rank = new Int32Array(solutions.length);
  const feasible: number[] = [];
  const infeasible: number[] = [];
  solutions.forEach((each, index) => {
    (each.violation > 0 ? infeasible : feasible).push(index);
  });

  let next = 0;
  if (feasible.length > 0) {
    next = 1 + (solutions[feasible[0]!]!.objectives.length === 2 ? rankPairs : rankAny)(solutions, feasible, rank);
  }
  infeasible.sort((a, b) => order(solutions[a]!.violation, solutions[b]!.violation));
  infeasible.forEach((index, place) => {
    if (place > 0 && solutions[index]!.violation > solutions[infeasible[place - 1]!]!.violation) next++;
    rank[index] = next;
  });
  return rank;
}

/** Comparison that holds for infinities, whose difference is not a number. */
function order(a: number, b: number): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/**
 * Two objectives, O(n log n) (Jensen, IEEE Trans. Evol. Comput. 7 (2003) 503-515): in the order of the first objective a
 * front dominates a point exactly if its last point does, and the fronts' last points are ordered, so that a bisection
 * finds the front. Returns the highest rank.
 */
function rankPairs(solutions: readonly Solution[], subset: readonly number[], rank: Int32Array): number {
  const sorted = [...subset].sort((a, b) => {
    const [left, right] = [solutions[a]!.objectives, solutions[b]!.objectives];
    return left[0]! - right[0]! || left[1]! - right[1]!;
  });
  const last: Float64Array[] = [];
  for (const index of sorted) {
    const point = solutions[index]!.objectives;
    let low = 0;
    let high = last.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (dominates(last[middle]!, point)) low = middle + 1;
      else high = middle;
    }
    rank[index] = low;
    last[low] = point;
  }
  return last.length - 1;
}

/** Any number of objectives, O(n^2): Deb and others (2002), section III.A. Returns the highest rank. */
function rankAny(solutions: readonly Solution[], subset: readonly number[], rank: Int32Array): number {
  const above = new Map<number, number>(subset.map((index) => [index, 0]));
  const below = new Map<number, number[]>(subset.map((index) => [index, []]));
  for (const [place, a] of subset.entries()) {
    for (const b of subset.slice(place + 1)) {
      const [first, second] = [solutions[a]!.objectives, solutions[b]!.objectives];
      if (dominates(first, second)) {
        below.get(a)!.push(b);
        above.set(b, above.get(b)! + 1);
      } else if (dominates(second, first)) {
        below.get(b)!.push(a);
        above.set(a, above.get(a)! + 1);
      }
    }
  }

  let level = 0;
  let front = subset.filter((index) => above.get(index) === 0);
  for (;;) {
    const following: number[] = [];
    for (const index of front) {
      rank[index] = level;
      for (const dominated of below.get(index)!) {
        const left = above.get(dominated)! - 1;
        above.set(dominated, left);
        if (left === 0) following.push(dominated);
      }
    }
    if (following.length === 0) return level;
    front = following;
    level++;
  }
}
