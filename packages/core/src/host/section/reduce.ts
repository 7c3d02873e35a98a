import { polynomialsOf, type RegularBasis } from '../../edge/index.js';
import { InputError } from '../../errors.js';
import {
  contourBasis,
  differenceAround,
  finerFields,
  innerPressure,
  insideContour,
  type Probe,
  placedModel,
  type ScalarLoad,
  type SolvedHost,
  type SolvedTwice,
  solveHost,
  wantedAccuracy,
  withPoles,
} from '../condensed/index.js';
import type { RoomWish } from '../contract.js';
import { leftBeyond } from '../left-beyond.js';
import type { ReducedModel } from '../reduced-model.js';
import type { SectionBody } from './body.js';
import { type CondensedSection, condenseSection, scalarOf } from './condense.js';
import { type ControlContour, controlContour } from './contour.js';
import { polesOf } from './poles.js';
import { limitProbes } from './probes.js';

const held = 0;
const free = 1;

/** Of what is left, each step's: condensing and two solutions, the usual number, come to four fifths. */
const stepShare = 0.4;

/** Steps between the degrees that are tried, how many to one contour, and how many contours: each is as fine as its degrees need. */
const stepOfDegree = 8;
const mostSteps = 2;
const mostContours = 3;
/** How many times as many edges a finer contour has, and as short sides what surrounds it: by 1.5 a waist between two corners was 0.27 % off where 0.19 was told, by 2 it is 0.04. */
const finely = 2;
/** Worse than this no model is handed out. */
const mostDifference = 0.1;

/**
 * The first degree of which the next one changes peaks around outlines at the limits of wall and edge radius by no more than the wanted accuracy;
 * where none is enough, the best. What the user's mesh errs by it does not know: the check tells.
 *
 * @throws InputError for walls that leave no room, and for fillers that no degree serves
 */
export function reduceSection(
  section: SectionBody,
  wish: Omit<RoomWish, 'mirror'>,
  onProgress?: (share: number) => void,
): ReducedModel {
  let done = 0;
  const told = <T>(step: T): T => {
    done += (1 - done) * stepShare;
    onProgress?.(done);
    return step;
  };
  const probes = limitProbes(section, wish);
  let best: Proof | undefined;
  let degree: number | undefined;
  for (let k = 0; k < mostContours && !(best !== undefined && best.accuracy <= wantedAccuracy); k++) {
    const contour = controlContour(section.border, section.box, wish, degree);
    best = better(best, proveOn(contour, section, probes, told));
    degree = contour.degree + mostSteps * stepOfDegree;
  }
  const { contour, condensed, lower, solved, finer, accuracy } = onFinerContour(best!, section, { wish, probes, told });
  if (!(accuracy <= mostDifference))
    throw new InputError({
      path: 'host.filler',
      expected: 'a filler in which channels can be modelled: not very long and thin at one end',
      received: `${section.joint.filler}, around which peaks are ${Math.round(100 * accuracy)} % in doubt`,
      remedy: 'name a more compact part of it as the filler, and the rest as a surface of the same material',
    });
  return {
    ...modelOf(section, contour, condensed, { solved, finer }),
    // Where fields converge slowly more is left than the last step has changed.
    accuracy: lower === undefined ? accuracy : accuracy * Math.max(1, leftBeyond(accuracy, lower.accuracy)),
    finer: { ...finerFields(finer), ...(lower === undefined ? {} : { lower: finerFields(lower.solved) }) },
  };
}

/** A solution on a contour, the finer one that it is held against, and by how much peaks differ. */
interface Proof {
  /** The same one step of degree lower, where there was one. */
  readonly lower?: Proof;
  readonly contour: ControlContour;
  readonly condensed: CondensedSection;
  readonly solved: SolvedHost;
  readonly finer: SolvedHost;
  readonly accuracy: number;
}

/** More degree is not always better: the highest fields are laid on what the contour's elements can tell. */
const better = (one: Proof | undefined, other: Proof): Proof =>
  one !== undefined && !(other.accuracy < one.accuracy) ? one : other;

/** With the contour's own degree, and more until the wanted accuracy is reached; the best of them where it is not. */
function proveOn(
  contour: ControlContour,
  section: SectionBody,
  probes: readonly Probe[],
  told: <T>(step: T) => T,
): Proof {
  const condensed = told(condenseSection(section, contour));
  const solve = (degree: number) => told(solveOnContour(section, contour, condensed, degree));
  let solved = solve(contour.degree);
  let best: Proof | undefined;
  let last: Proof | undefined;
  for (let step = 1; step <= mostSteps && !(best !== undefined && best.accuracy <= wantedAccuracy); step++) {
    const finer = solve(contour.degree + step * stepOfDegree);
    const accuracy = differenceAround(probes, solved, finer);
    last = { ...(last === undefined ? {} : { lower: last }), contour, condensed, solved, finer, accuracy };
    best = better(best, last);
    solved = finer;
  }
  return best!;
}

/**
 * Beside corners that are cut into the filler contour, elements and poles err, not the polynomials' degree: there the finer solution is one on shorter edges and sides, with more poles, so
 * that its difference holds what they all err by. It is laid on the same polynomials, whose moments are shared.
 */
function onFinerContour(
  best: Proof,
  section: SectionBody,
  { wish, probes, told }: { wish: Omit<RoomWish, 'mirror'>; probes: readonly Probe[]; told: <T>(step: T) => T },
): Proof {
  const { contour, solved } = best;
  const { poles, ...basis } = best.finer.basis;
  if (poles === undefined) return best;
  const fineContour = controlContour(section.border, section.box, wish, contour.degree, finely);
  const condensed = told(condenseSection(section, fineContour, finely));
  const polynomials = { ...basis, degree: polynomialsOf(best.finer.basis) };
  const poled = withPoles(polynomials, contour, polesOf(section, contour.inset, true));
  const finer = told(solveInContour(section, fineContour, condensed, poled));
  return { contour, condensed, solved, finer, accuracy: differenceAround(probes, solved, finer) };
}

/** With polynomials up to a degree, and the poles that corners of the filler ask for. */
function solveOnContour(
  section: SectionBody,
  contour: ControlContour,
  condensed: CondensedSection,
  degree: number,
): SolvedHost {
  const polynomials = contourBasis(contour, ...contour.middle, degree, false);
  return solveInContour(section, contour, condensed, withPoles(polynomials, contour, polesOf(section, contour.inset)));
}

function solveInContour(
  { joint }: SectionBody,
  contour: ControlContour,
  { host }: CondensedSection,
  basis: RegularBasis,
): SolvedHost {
  return solveHost(host, insideContour(contour, joint.surfaces[joint.filler]!.ply, basis), [
    { name: 'cure', size: 'deltaT', scalar: 'deltaT', support: free, symmetric: false },
    innerPressure(basis, held),
    ...Object.keys(joint.loads).map(
      (name): ScalarLoad => ({ name, size: 'force', scalar: scalarOf(name), support: held, symmetric: false }),
    ),
  ]);
}

/** Points across the largest circle where the filler is looked at without channel. */
const across = 12;

function modelOf(
  { circle }: SectionBody,
  contour: ControlContour,
  { host, rows }: CondensedSection,
  twice: SolvedTwice,
): ReducedModel {
  const range = (values: Float64Array) => [Math.min(...values), Math.max(...values)] as const;
  const [[xMin, xMax], [yMin, yMax]] = [range(contour.x), range(contour.y)];
  return placedModel(
    'section',
    twice,
    { points: host.body.points, rows },
    { inner: { xMin, xMax, yMin, yMax, step: (2 * circle.radius) / across }, contour: contour.data },
  );
}
