import type { FramedMoments } from './place-moments.js';
import type { JudgedMap } from './place-table.js';

/** What of an outline tells the stresses at places. */
export interface TakenOutline {
  withChannel: boolean;
  /** Only the symmetric part counts, or all is one part. */
  oneSide: boolean;
  /** Number of outlines so far: what was worked out in an earlier one is out of date. */
  evaluation: number;
  /** Of each load. */
  readonly framed: readonly FramedMoments[];
  /** Along the channel, of each load. */
  readonly strains: Float64Array;
}

/** Sum of a row's products, from `from` on, with the first moments. */
export function product(values: Float64Array, from: number, to: number, moments: Float64Array): number {
  let even = 0;
  let odd = 0;
  let j = 0;
  let at = from;
  // Two sums: one would wait for itself.
  for (; at + 1 < to; at += 2, j += 2) {
    even += values[at]! * moments[j]!;
    odd += values[at + 1]! * moments[j + 1]!;
  }
  return at < to ? even + odd + values[at]! * moments[j]! : even + odd;
}

/** Two such sums over one row, of two loads' moments, into `out`. */
export function twoProducts(
  { values, offsets }: Pick<JudgedMap, 'values' | 'offsets'>,
  row: number,
  first: Float64Array,
  second: Float64Array,
  out: Float64Array,
): void {
  const to = offsets[row + 1]!;
  let even = 0;
  let odd = 0;
  let evenOfSecond = 0;
  let oddOfSecond = 0;
  let j = 0;
  let at = offsets[row]!;
  for (; at + 1 < to; at += 2, j += 2) {
    const a = values[at]!;
    const b = values[at + 1]!;
    even += a * first[j]!;
    odd += b * first[j + 1]!;
    evenOfSecond += a * second[j]!;
    oddOfSecond += b * second[j + 1]!;
  }
  out[0] = at < to ? even + odd + values[at]! * first[j]! : even + odd;
  out[1] = at < to ? evenOfSecond + oddOfSecond + values[at]! * second[j]! : evenOfSecond + oddOfSecond;
}
