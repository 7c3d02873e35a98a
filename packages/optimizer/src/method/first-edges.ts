import type { Bounds } from '../problem.js';

/** Edge of a first simplex: a share of what known points differ by in a variable, and at least a share of its range. */
const shareOfSpread = 0.05;
const shareOfRange = 0.002;

/** Edge lengths of a first simplex around one of `points`, variable by variable. */
export function firstEdges(points: readonly ArrayLike<number>[], { lower, upper }: Bounds): number[] {
  return Array.from(lower, (low, i) => {
    const values = points.map((x) => x[i]!);
    return Math.max(shareOfSpread * (Math.max(...values) - Math.min(...values)), shareOfRange * (upper[i]! - low));
  });
}
