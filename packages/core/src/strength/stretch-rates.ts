import type { CaseFactors } from './case-split.js';
import type { PointStress } from './criteria.js';
import { createInverseSlopes, type PlaceCriterion, writeInverseSlopes } from './criteria-slopes.js';
import type { PlaceStress } from './place-stress.js';

/**
 * Where each stretch between two points that are always looked at fails first, side by side. Smooth in the outline but where the failure goes from point to
 * point. Stretches that fail far later than the first have the factor Infinity.
 */
export interface StretchFailures {
  readonly factors: Float64Array;
  /** Numbers of the points. */
  readonly points: Int32Array;
}

/** A stretch as it was judged. */
export interface JudgedStretch {
  readonly split: CaseFactors;
  readonly failures: StretchFailures;
  readonly stretch: number;
}

/** Adds `weight` times the rates of one over the load factor of a stretch, one to a motion, to `out` from `at` on. */
export type AddStretchRates = (stretch: JudgedStretch, weight: number, out: Float64Array, at: number) => void;

/** `criterionAt`: what a stretch of one side is judged by at one of its points. */
export function createStretchRates(
  stresses: PlaceStress,
  stretches: number,
  criterionAt: (stretch: number, point: number) => PlaceCriterion,
): AddStretchRates {
  const held: PointStress = { n: 0, t: 0, s: 0 };
  const grown: PointStress = { n: 0, t: 0, s: 0 };
  const rates = createInverseSlopes();
  let weights = new Float64Array(0);

  return ({ split, failures, stretch }, weight, out, at) => {
    const { fixed, scaled } = split;
    if (weights.length !== 3 * fixed.length) weights = new Float64Array(3 * fixed.length);
    const side = stresses.sides()[Math.floor(stretch / stretches)]!;
    const i = failures.points[stretch]!;
    stresses.combine(i, side, split, held, grown);
    writeInverseSlopes(criterionAt(stretch % stretches, i), held, grown, failures.factors[stretch]!, rates);
    for (let l = 0; l < fixed.length; l++) {
      weights[3 * l] = weight * (fixed[l]! * rates.held.n + scaled[l]! * rates.grown.n);
      weights[3 * l + 1] = weight * (fixed[l]! * rates.held.t + scaled[l]! * rates.grown.t);
      weights[3 * l + 2] = weight * (fixed[l]! * rates.held.s + scaled[l]! * rates.grown.s);
    }
    stresses.addRates(i, side, weights, out, at);
  };
}
