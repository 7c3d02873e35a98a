import type { Bounds } from '../../problem.js';
import type { Random } from '../../random.js';

/** One way to make a child. Children lie inside the bounds. */
export interface Variation {
  readonly name: string;
  /** `mate` draws another member of the population, a new one each time. Changes neither of them. */
  child(parent: Float64Array, mate: () => Float64Array, bounds: Bounds, random: Random): Float64Array;
}

/** The nearest value within a variable's bounds; without a negative zero, which would look like another point. */
export function within(bounds: Bounds, i: number, value: number): number {
  return Math.min(Math.max(value, bounds.lower[i]!), bounds.upper[i]!) + 0;
}
