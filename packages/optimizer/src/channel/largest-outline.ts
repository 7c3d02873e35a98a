import { type CurvatureFit, type Curve, type EdgeProfiler, fitCurvature } from '@lumenfront/core';
import { descendCurvature } from './curvature-descent.js';

/** Coefficients of the first stages; each has so many slopes, and ends where the next ones promise less than this share of the area. */
const first = [16, 16];
const slopes = 15;
const enough = 1e-5;
/** First radius of trust, mean radii: far, as only walls and least radius stand in the way. */
const radius = 0.2;
/** Of an outline that is only to grow, mm2. */
const leastArea = 1e-9;
/** What it may cost, in evaluations: no solve where nothing is asked of the strength, but the rest of as many. */
export const growthCost = 400;

/** How an outline is to grow. */
export interface LargestWish {
  /** Coefficients at the end; a start that has them already needs no coarser stages. */
  readonly pieces: number;
  /** mm */
  readonly edgeRadius: number;
  /** Mirror lines between it and its neighbours, of several channels; see `mirrorLines`. */
  readonly lines?: readonly number[];
  /** Evaluations. */
  readonly most: number;
}

export interface LargestOutline {
  readonly fit: CurvatureFit;
  readonly area: number;
  readonly evaluations: number;
}

/**
 * The largest outline that keeps all limits, whatever its cost, as it grows from another one; stage by stage, so that knots go to where corners have come to be. Its form is
 * held by walls and least radius nearly everywhere, so that programs find it in few steps. Undefined where the start cannot be fitted.
 */
export function largestOutline(
  { bySize }: EdgeProfiler,
  start: { readonly curve: Curve; readonly fitted: boolean },
  { pieces, edgeRadius, lines = [], most }: LargestWish,
): LargestOutline | undefined {
  let largest: LargestOutline | undefined;
  let { curve } = start;
  let evaluations = 0;
  for (const stage of start.fitted ? [pieces, pieces] : [...first, pieces, pieces]) {
    const fit = fitCurvature(curve, stage, edgeRadius, lines);
    if (fit === undefined) break;
    const { outline } = fit;
    const aims = { area: leastArea, edgeRadius, radius, slopes, enough, most: most - evaluations, rough: true };
    const grown = descendCurvature(bySize, { ...fit, ...aims });
    evaluations += grown.evaluations;
    const { values, known } = grown;
    if (known === undefined) break;
    largest = { fit: { ...fit, values }, area: known.profile.area, evaluations };
    curve = { mirror: outline.form.mirror, place: (count) => outline.place(values, count) };
  }
  return largest;
}
