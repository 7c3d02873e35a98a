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

/**
 * Degree of the fields that tell the stresses at places. Beside channels at the limit of the wall, of the largest stress along the filler's interfaces, 28 leaves
 * 2 to 19 % out, 36 0.6 to 8 %, 44 0.1 to 3 %, this 0.1 to 0.5 %.
 */
export const placesDegree = 52;

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
  degree = placesDegree,
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
  const basis = contourBasis(contour, 0, joint.bendRadius / 4, degree);
  return {
    joint,
    contour,
    host: { contour, supports, body },
    inside: insideContour(contour, joint.filler, basis),
  };
}

/** With regular fields up to `degree` inside the contour; by default all. */
export function solveOnContour(
  { joint, host, inside: all }: TeeOnContour,
  degree: number = all.basis.degree,
): SolvedHost {
  const inside = degree < all.basis.degree ? upToDegree(all, degree) : all;
  return solveHost(host, inside, [...scalarLoads(joint.support, true), innerPressure(inside.basis, held)]);
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
  const condensed = condenseOnContour(joint, wall, edgeRadius, fineness, Math.max(fineness.degree, placesDegree));
  return modelOf(condensed, {
    solved: solveOnContour(condensed, fineness.degree),
    finer: solveOnContour(condensed),
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
