import { IndefiniteError } from '../../linear/index.js';
import {
  type AroundContour,
  contourBasis,
  type Inside,
  innerPressure,
  insideContour,
  placedModel,
  type RecoverableHost,
  type SolvedHost,
  type SolvedTwice,
  solveHost,
  upToDegree,
} from '../condensed/index.js';
import type { ReducedModel } from '../reduced-model.js';
import { condenseTee, type TeeHalf } from './condense.js';
import { type ControlContour, controlContour } from './contour.js';
import { placeRows } from './place-rows.js';
import { fillerRadius } from './rounded-filler.js';
import type { TeeJoint } from './tee.js';
import { held, scalarLoads } from './unit-loads.js';

/** How finely a tee is meshed outside its control contour. */
export interface HostFineness {
  /** Quadratic edges of the whole control contour. */
  readonly edges: number;
  /** Divides every other size. */
  readonly refinement: number;
}

/** And the degree of the regular fields inside it. */
export interface Fineness extends HostFineness {
  readonly degree: number;
}

/** 0.3 to 0.5 % of the peak in the worst outlines of ordinary joints, 0.1 % in most. */
export const usualFineness: Fineness = { edges: 140, refinement: 1.5, degree: 28 };

/** Degree of the fields that the usual ones are held against. */
export const finerDegree = 52;

/**
 * Degree of the fields that tell the stresses at places. Beside channels at the limit of the wall, of the largest stress along the filler's interfaces, 28 leaves
 * 2 to 19 % out, 36 0.6 to 8 %, 44 0.1 to 3 %, 52 0.1 to 0.5 % (3 % where walls and edge radii are a fortieth of the bend radius or less), this 0.5 % there as well.
 */
const placesDegree = 68;

/** The next one, where the contour's elements do not tell the highest. */
const lowerPlacesDegree = 60;

/** A tee with its control contour, and what lies outside it condensed onto it: as its ends are held under mechanical loads, and free. */
export interface TeeOnContour {
  readonly joint: TeeJoint;
  readonly contour: ControlContour;
  readonly host: RecoverableHost;
  /** Up to the highest degree. */
  readonly inside: Inside;
}

/** `wall`, `edgeRadius` in mm. Throws InputError for a joint or walls that leave no room. */
export function condenseOnContour(
  joint: TeeJoint,
  wall: number,
  edgeRadius: number,
  { edges, refinement }: HostFineness,
  degree = finerDegree,
): TeeOnContour {
  const contour = controlContour(joint.bendRadius, wall, edgeRadius, edges);
  const { halves, body } = condenseTee(joint, contour, { refinement });
  const [symmetric, freelySymmetric, antisymmetric, freelyAntisymmetric] = halves as [
    TeeHalf,
    TeeHalf,
    TeeHalf,
    TeeHalf,
  ];
  const supports = [
    { symmetric, antisymmetric },
    { symmetric: freelySymmetric, antisymmetric: freelyAntisymmetric },
  ];
  return { joint, contour, host: { contour, supports, body }, inside: insideUpTo(joint, contour, degree) };
}

const insideUpTo = (joint: TeeJoint, contour: ControlContour, degree: number): Inside =>
  insideContour(contour, joint.filler, contourBasis(contour, 0, fillerRadius(joint.bendRadius), degree));

/** With regular fields up to `degree` inside the contour; by default all that are known. */
export function solveOnContour(
  { joint, contour, host, inside: all }: TeeOnContour,
  degree: number = all.basis.degree,
): SolvedHost {
  const highest = all.basis.degree;
  const inside =
    degree === highest ? all : degree < highest ? upToDegree(all, degree) : insideUpTo(joint, contour, degree);
  return solveHost(host, inside, [...scalarLoads(joint.support, true), innerPressure(inside.basis, held)]);
}

/** What tells the stresses at places; undefined where walls are so thin that the contour's elements do not tell so high fields. */
export const solvePlaces = (condensed: TeeOnContour): SolvedHost | undefined =>
  ifDefinite(() => solveOnContour(condensed, placesDegree)) ??
  ifDefinite(() => solveOnContour(condensed, lowerPlacesDegree));

/** Undefined where the elements along the contour are too few for the fields that are laid on them, so that the equations have no unique solution. */
export function ifDefinite<T>(solve: () => T): T | undefined {
  try {
    return solve();
  } catch (error) {
    if (error instanceof IndefiniteError) return undefined;
    throw error;
  }
}

/**
 * Condenses a tee once into its reduced model: everything outside the control contour of `wall` and `edgeRadius` (mm) becomes a
 * small matrix per support. Throws as `condenseOnContour`.
 */
export function reduceTee(
  joint: TeeJoint,
  wall: number,
  edgeRadius: number,
  fineness: Fineness = usualFineness,
): ReducedModel {
  const condensed = condenseOnContour(joint, wall, edgeRadius, fineness);
  return modelOf(condensed, {
    solved: solveOnContour(condensed, fineness.degree),
    finer: solvePlaces(condensed) ?? solveOnContour(condensed),
  });
}

export function modelOf({ contour, host: { body } }: TeeOnContour, twice: SolvedTwice): ReducedModel {
  const rows = placeRows(body.points, contour.bendRadius);
  return placedModel('tee', twice, { points: body.points, rows }, aroundContour(contour));
}

export function aroundContour({ bendRadius, inset, tipRadius }: ControlContour): AroundContour {
  return {
    inner: { xMin: -bendRadius, xMax: bendRadius, yMin: inset, yMax: bendRadius, step: bendRadius / across },
    contour: { bendRadius, inset, tipRadius },
  };
}

/** Points across the height of the filler where it is looked at without channel. */
const across = 24;
