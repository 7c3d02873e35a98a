import { differenceAround, wantedAccuracy } from '../condensed/index.js';
import type { ReducedModel } from '../reduced-model.js';
import { limitProbes } from './probes.js';
import { condenseOnContour, type Fineness, modelOf, solveOnContour, usualFineness } from './reduce.js';
import type { TeeJoint } from './tee.js';

/** For joints whose fields ask for more: 1.5 to 2 times the time of an outline. */
const finer: Fineness = { edges: 170, degree: 44 };

/** What tells whether they do, on the contour of the usual fineness. */
const trialDegree = 40;

/**
 * Condenses a tee as finely as its fields ask for: finer than usual where a higher degree changes peaks around outlines at the limits of
 * wall and edge radius (mm) by more than the wanted accuracy. So it is where the filler is much stiffer or softer than the plies, or
 * the wall is thin against the bend radius. `accuracy` of the model says what the last step changed.
 *
 * @throws InputError for a joint or walls that leave no room
 */
export function proveTee(joint: TeeJoint, wall: number, edgeRadius: number): ReducedModel {
  const probes = limitProbes(joint.bendRadius, wall, edgeRadius);
  const usual = condenseOnContour(joint, wall, edgeRadius, usualFineness.edges);
  const coarse = solveOnContour(usual, usualFineness.degree);
  const accuracy = differenceAround(probes, coarse, solveOnContour(usual, trialDegree));
  if (accuracy <= wantedAccuracy) return { ...modelOf(usual, coarse), accuracy };
  const fine = condenseOnContour(joint, wall, edgeRadius, finer.edges);
  const solved = solveOnContour(fine, finer.degree);
  return { ...modelOf(fine, solved), accuracy: differenceAround(probes, coarse, solved), finer: true };
}
