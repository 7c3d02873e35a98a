import {
  type CurvatureOutline,
  type EdgeProfile,
  type OutlineProfiler,
  type ProfileSlopes,
  slopesCost,
} from '@lumenfront/core';
import { bestMove, type Holding, keepingMove, type Linearised, shiftedBack } from './curvature-program.js';
import { type Bend, carriedBend, firstBend, learnBend, noBend } from './lagrangian-bend.js';
import { firstPenalty, limitsOf } from './outline-limits.js';

/** What is known of an outline where a descent ends: the next one need not find it again. */
export interface SlopesAt {
  readonly profile: EdgeProfile;
  readonly slopes: ProfileSlopes;
  readonly bend: Bend;
  /** Rows that held the last step's program, and what lacks counts there. */
  readonly hints: readonly number[];
  readonly penalty: number;
}

/** Asks for the least peak at no less than an area, from an outline by curvature on. */
export interface CurvatureDescentRequest {
  readonly outline: CurvatureOutline;
  readonly values: Float64Array;
  readonly known?: SlopesAt | undefined;
  /** Least area, mm2. */
  readonly area: number;
  /** Least radius of curvature, mm. */
  readonly edgeRadius: number;
  readonly nodes: number;
  /** First radius of trust, in mean radii of the outline. */
  readonly radius: number;
  /** Slopes to take at most. */
  readonly slopes: number;
  /** Evaluations to spend at most; what slopes cost is among them. */
  readonly most: number;
  /** Foretold gain, as a share, below which it ends. */
  readonly enough?: number | undefined;
  /** A stage on the way: no certificate. */
  readonly rough?: boolean | undefined;
}

export interface CurvatureDescent {
  /** Best outline so far. */
  readonly values: Float64Array;
  /**
   * Share by which the peak could be lower, to first order, with all limits kept, by moves of a hundredth of the mean radius: the certificate
   * of a local optimum, where it is nearly 0. NaN where no slopes were taken at the outline reached, and of a stage on the way.
   */
  readonly locallyOptimalWithin: number;
  /** Undefined where no slopes were taken at the outline reached. */
  readonly known: SlopesAt | undefined;
  readonly stop: string;
  readonly evaluations: number;
}

/** Moves of the certificate, and radii of trust: where it is too small to go on, and the largest; in mean radii. */
const certified = 0.01;
const smallest = 2e-5;
const largest = 0.2;
/** Share of what a program foretold that makes its step a good one, and makes it one at all. */
const goodShare = 0.7;
const poorShare = 0.25;
const leastShare = 0.05;
/** Foretold gain, as a share of the merit, below which the outline counts as the best nearby. */
const nothing = 1e-4;
const mostTries = 8;

/**
 * Sequential quadratic programs: hoop stress of all cases at and between the nodes, walls, area and closure are linearised, the Lagrangian's second derivatives
 * are learnt from the slopes, and the peak is made small within a radius of trust; a step that keeps less than it promised is solved again with the values seen
 * at its end (second-order correction: Fletcher, Practical Methods of Optimization, 2nd ed. 1987, section 14.4). The bound on curvature is a box
 * of the coefficients, exact everywhere.
 */
export function descendCurvature(profiler: OutlineProfiler, request: CurvatureDescentRequest): CurvatureDescent {
  const { outline, nodes, area, edgeRadius, most, known, enough = nothing, rough } = request;
  const size = request.values.length;
  const limits = limitsOf(outline, request.values, area, edgeRadius);
  const { bound } = limits;
  let values = request.values;
  let evaluations = 0;
  const profileOf = (at: Float64Array): EdgeProfile | undefined => {
    evaluations++;
    return profiler.profile(outline, at, nodes);
  };
  const ended = (stop: string, here?: SlopesAt, locallyOptimalWithin = Number.NaN): CurvatureDescent => ({
    values,
    locallyOptimalWithin,
    known: here,
    stop,
    evaluations,
  });
  let first = known?.profile;
  if (first === undefined) {
    values = values.map((value, k) => (k > outline.lengthAt ? Math.max(-bound, Math.min(bound, value)) : value));
    if (outline.close(values, bound)) first = profileOf(values);
  }
  if (first === undefined) return ended('start has no profile');
  let here = first;
  const scale = here.cost;
  let penalty = known?.penalty ?? firstPenalty;
  const meritOf = (profile: EdgeProfile) => profile.cost / scale + penalty * limits.lackOf(profile);
  /** The outline a step away, closed, with its profile. */
  const tried = (step: Float64Array) => {
    const at = values.map((value, k) => value + step[k]!);
    const profile = outline.close(at, bound) ? profileOf(at) : undefined;
    return profile === undefined ? undefined : { at, profile, merit: meritOf(profile) };
  };

  let { radius } = request;
  let merit = meritOf(here);
  const hints: number[] = [...(known?.hints ?? [])];
  let bend: Float64Array | undefined;
  let before: { readonly linearised: Linearised; readonly holding: Holding } | undefined;
  for (let taken = 1; ; taken++) {
    // Slopes and the steps of one try.
    if (evaluations + slopesCost(size) + 2 > most) return ended('budget spent');
    const again = taken === 1 ? known?.slopes : undefined;
    const slopes = again ?? profiler.slopes(outline, values, nodes);
    if (again === undefined) evaluations += slopes.evaluations;
    const closures = new Float64Array(outline.closures * size);
    outline.closure(values, new Float64Array(outline.closures), closures);
    let linearised: Linearised = { slopes, closures, values, scale, limits, penalty, hints };
    bend ??= known === undefined ? firstBend(linearised) : carriedBend(known.bend, linearised);
    if (before !== undefined) learnBend(bend, before.linearised, linearised, before.holding);
    const learnt: Bend = { triangle: bend, units: limits.units, scale };
    const endedHere = (stop: string): CurvatureDescent => {
      // What lacks may go on lacking: a certificate is of the cost alone.
      const lacking = limits.lackOf(here);
      const held = hints.slice();
      const at: SlopesAt = { profile: here, slopes, bend: learnt, hints: held, penalty };
      return ended(stop, at, rough === true ? undefined : certificateOf({ ...linearised, lacking }, here, merit));
    };
    if (taken > request.slopes) return endedHere('slopes taken');
    let moved = false;
    for (let tries = 0; tries < mostTries && !moved && radius >= smallest; tries++) {
      if (evaluations + 2 > most) return endedHere('budget spent');
      const { step, holding, ...foretold } = keepingMove(linearised, here, { radius, bend, may: limits.lackOf(here) });
      if (foretold.penalty > penalty) {
        penalty = foretold.penalty;
        merit = meritOf(here);
        linearised = { ...linearised, penalty };
      }
      const promised = merit - foretold.merit;
      if (promised < enough * merit && radius >= certified) return endedHere('locally optimal');
      let best = tried(step);
      if (best !== undefined && merit - best.merit < goodShare * promised) {
        const second = tried(bestMove(linearised, shiftedBack(best.profile, slopes, step), radius, bend).step);
        if (second !== undefined && second.merit < best.merit) best = second;
      }
      const share = best === undefined ? -1 : (merit - best.merit) / promised;
      if (best !== undefined && share > leastShare) {
        before = { linearised, holding };
        ({ at: values, profile: here, merit } = best);
        moved = true;
      }
      if (share > goodShare) radius = Math.min(largest, 2 * radius);
      else if (share < poorShare) radius *= moved ? 0.5 : 0.35;
    }
    if (!moved) return endedHere('no more gain');
  }
}

/** Asks for the outline of another area beside one whose slopes are known. */
export interface BesideRequest
  extends Pick<CurvatureDescentRequest, 'outline' | 'values' | 'area' | 'edgeRadius' | 'nodes'> {
  readonly known: SlopesAt;
}

/** Radius of trust, mean radii: small enough for what slopes and bend foretell. */
const besideRadius = 0.05;

export interface OutlineBeside {
  readonly values: Float64Array;
  readonly profile: EdgeProfile;
  /** See `CurvatureDescent`, by the slopes of the outline beside. */
  readonly locallyOptimalWithin: number;
}

/** Share of its merit by which an outline's could be lower, to first order. */
function certificateOf(linearised: Linearised, here: EdgeProfile, merit: number): number {
  const lower = bestMove(linearised, here, certified, noBend(linearised.values.length)).linear;
  return Math.max(0, 1 - lower / merit);
}

/** The outline of another area as slopes and bend foretell it, corrected once by what is seen there: two solves. Undefined where none can be solved. */
export function outlineBeside(
  profiler: OutlineProfiler,
  { outline, values, area, edgeRadius, nodes, known }: BesideRequest,
): OutlineBeside | undefined {
  const limits = limitsOf(outline, values, area, edgeRadius);
  const closures = new Float64Array(outline.closures * values.length);
  outline.closure(values, new Float64Array(outline.closures), closures);
  const { slopes, profile: here } = known;
  const linearised: Linearised = {
    ...{ slopes, closures, values, limits, scale: here.cost },
    ...{ penalty: known.penalty, hints: [...known.hints] },
  };
  const bend = carriedBend(known.bend, linearised);
  const tried = (from: EdgeProfile, penalty: number) => {
    const move = keepingMove({ ...linearised, penalty }, from, { radius: besideRadius, bend, may: 0 });
    const at = values.map((value, k) => value + move.step[k]!);
    const profile = outline.close(at, limits.bound) ? profiler.profile(outline, at, nodes) : undefined;
    return profile && { values: at, profile, move };
  };
  let best = tried(here, known.penalty);
  if (best === undefined) return undefined;
  const { step, linear, penalty } = best.move;
  const meritOf = (profile: EdgeProfile) => profile.cost / here.cost + penalty * limits.lackOf(profile);
  if (meritOf(best.profile) > (1 + nothing) * linear) {
    const second = tried(shiftedBack(best.profile, slopes, step), penalty);
    if (second !== undefined && meritOf(second.profile) < meritOf(best.profile)) best = second;
  }
  const at = { ...linearised, values: best.values, lacking: limits.lackOf(best.profile), penalty };
  return {
    values: best.values,
    profile: best.profile,
    locallyOptimalWithin: certificateOf(at, best.profile, meritOf(best.profile)),
  };
}
