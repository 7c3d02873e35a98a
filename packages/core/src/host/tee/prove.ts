import { createEdgeSolver, hoopRule } from '../../edge/index.js';
import type { ReducedModel } from '../reduced-model.js';
import { limitProbes, type Probe } from './probes.js';
import { condenseOnContour, type Fineness, modelOf, type SolvedTee, solveTee, usualFineness } from './reduce.js';
import type { TeeJoint } from './tee.js';

/** For joints whose fields ask for more: 1.5 to 2 times the time of an outline. */
const finer: Fineness = { edges: 170, degree: 44 };

/** What tells whether they do, on the contour of the usual fineness. */
const trialDegree = 40;

/** Difference of peaks, as a share of the largest hoop stress, up to which the usual fineness is enough. */
const wantedAccuracy = 0.01;

/**
 * Condenses a tee as finely as its fields ask for: finer than usual where a higher degree changes peaks around outlines at the limits of
 * wall and edge radius (mm) by more than `wantedAccuracy`. So it is where the filler is much stiffer or softer than the plies, or
 * the wall is thin against the bend radius. `accuracy` of the model says what the last step changed.
 *
 * @throws InputError for a joint or walls that leave no room
 */
export function proveTee(joint: TeeJoint, wall: number, edgeRadius: number): ReducedModel {
  const probes = limitProbes(joint.bendRadius, wall, edgeRadius);
  const condensed = condenseOnContour(joint, wall, edgeRadius, usualFineness.edges);
  const usual = solveTee(condensed, usualFineness.degree);
  const hoop = hoopAround(probes, usual);
  const accuracy = largestDifference(hoop, hoopAround(probes, solveTee(condensed, trialDegree)));
  if (accuracy <= wantedAccuracy) return { ...modelOf(usual), accuracy };
  const fine = solveTee(condenseOnContour(joint, wall, edgeRadius, finer.edges), finer.degree);
  return { ...modelOf(fine), accuracy: largestDifference(hoop, hoopAround(probes, fine)) };
}

/** Hoop stress at the nodes of every probe under every unit load; loads without mirror symmetry only on probes without. */
function hoopAround(probes: readonly Probe[], { frame: { basis }, supports, units }: SolvedTee): Float64Array[] {
  const loads = units.map(({ undisturbed, response, offset, symmetric }) => ({
    undisturbed,
    response: supports[response]!.response,
    offset,
    symmetric,
  }));
  return probes.flatMap(({ mirror, nodes }) => {
    const acting = loads.filter(({ symmetric }) => symmetric || !mirror);
    const { phi } = createEdgeSolver(basis, nodes.count, mirror, acting.length, 1e-9).solve(nodes, acting);
    const rule = hoopRule(nodes.count);
    const slope = new Float64Array(2 * nodes.count);
    return acting.map(({ offset }, l) => {
      const hoop = new Float64Array(nodes.count);
      rule.slope(phi[l]!, slope);
      rule.atNodes(nodes, slope, basis.length, offset, hoop);
      return hoop;
    });
  });
}

/** Of peaks, as a share of the largest hoop stress around the same edge; NaN where one was not solved. */
function largestDifference(coarse: readonly Float64Array[], fine: readonly Float64Array[]): number {
  const shares = coarse.map((hoop, n) => {
    const other = fine[n]!;
    const size = other.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    return Math.abs(Math.max(...hoop) - Math.max(...other)) / size;
  });
  return Math.max(...shares);
}
