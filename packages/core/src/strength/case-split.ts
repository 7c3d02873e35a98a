/** Factors of the loads in one case: what is held and what is scaled. */
export interface SplitCase {
  readonly fixed: Float64Array;
  readonly scaled: Float64Array;
  readonly scales: 'loads' | 'cure';
  /** There is a pre-stress. */
  readonly holds: boolean;
}

/** Cure as the fixed part of a case and all else as the scaled part; a case of cure alone is scaled itself. */
export function splitCase(factors: Float64Array, cure: number): SplitCase {
  const scaled = factors.slice();
  const fixed = new Float64Array(factors.length);
  if (cure < 0 || factors[cure] === 0) return { fixed, scaled, scales: 'loads', holds: false };
  if (factors.every((factor, l) => l === cure || factor === 0)) return { fixed, scaled, scales: 'cure', holds: false };
  fixed[cure] = factors[cure]!;
  scaled[cure] = 0;
  return { fixed, scaled, scales: 'loads', holds: true };
}
