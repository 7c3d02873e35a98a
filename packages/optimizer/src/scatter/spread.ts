import { mean, quantileSorted, standardDeviation } from 'simple-statistics';

/** Distribution of one figure over the samples. */
export interface Spread {
  readonly mean: number;
  readonly deviation: number;
  readonly least: number;
  readonly quantile05: number;
  readonly median: number;
  readonly quantile95: number;
  readonly most: number;
}

export function spreadOf(values: readonly number[]): Spread {
  const sorted = [...values].sort((a, b) => a - b);
  return {
    mean: mean(sorted),
    deviation: standardDeviation(sorted),
    least: sorted[0]!,
    quantile05: quantileSorted(sorted, 0.05),
    median: quantileSorted(sorted, 0.5),
    quantile95: quantileSorted(sorted, 0.95),
    most: sorted.at(-1)!,
  };
}

/**
 * The peak that `share` of all samples do not exceed. A sample that is no channel of the joint counts as one whose peak is beyond any
 * other: Infinity where more than the rest are such.
 *
 * @param peaks of all samples, Infinity for those that are no channel
 */
export function quantilePeak(peaks: readonly number[], share: number): number {
  const value = quantileSorted(
    [...peaks].sort((a, b) => (a < b ? -1 : 1)),
    share,
  );
  // Between two samples that are no channels: Infinity less Infinity.
  return Number.isNaN(value) ? Number.POSITIVE_INFINITY : value;
}
