/** Factors of the loads in one case: what is held and what is scaled. */
export interface CaseFactors {
  readonly fixed: Float64Array;
  readonly scaled: Float64Array;
}

export interface SplitCase extends CaseFactors {
  readonly scales: 'loads' | 'cure';
  /** What the stress of the case as given is multiplied by to become that of the scaled part; 0 where a part is held. */
  readonly own: number;
}

/** Cure as the fixed part of a case and all else as the scaled part; a case of cure alone is scaled itself. */
export function splitCase(factors: Float64Array, cure: number): SplitCase {
  if (cure < 0 || factors[cure] === 0) return wholeCase(factors);
  if (factors.every((factor, l) => l === cure || factor === 0)) return { ...wholeCase(factors), scales: 'cure' };
  const scaled = factors.slice();
  const fixed = new Float64Array(factors.length);
  fixed[cure] = factors[cure]!;
  scaled[cure] = 0;
  return { fixed, scaled, scales: 'loads', own: 0 };
}

/** All of a case scaled, the cure with the loads. */
export function wholeCase(factors: Float64Array): SplitCase {
  return { fixed: new Float64Array(factors.length), scaled: factors, scales: 'loads', own: 1 };
}

/** A case that `splitCase` or this made, its cure `ratio` times as large. */
export function withCure({ fixed, scaled, scales, own }: SplitCase, ratio: number): SplitCase {
  const larger = (factors: Float64Array) => factors.map((factor) => ratio * factor);
  if (scales === 'cure') return { fixed, scaled: larger(scaled), scales, own: ratio * own };
  return { fixed: larger(fixed), scaled, scales, own };
}

/** What the left one of a pair bears is what the right one would under the mirrored case: `odd` loads with the other sign. */
export function mirroredCase(split: SplitCase, odd: readonly boolean[]): SplitCase {
  const turned = (factors: Float64Array) => factors.map((factor, l) => (odd[l] ? -factor : factor));
  return { ...split, fixed: turned(split.fixed), scaled: turned(split.scaled) };
}
