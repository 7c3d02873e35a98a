import type { RegularBasis } from '../../edge/index.js';
import { InputError } from '../../errors.js';
import { createChoices } from '../choices.js';
import {
  contourBasis,
  differenceAround,
  finerFields,
  type Inside,
  innerPressure,
  insideContour,
  placedModel,
  type RecoverableHost,
  type ScalarLoad,
  type SolvedHost,
  type SolvedTwice,
  solveHost,
  upToDegree,
  wantedAccuracy,
} from '../condensed/index.js';
import type { RoomWish } from '../contract.js';
import { type HeightPlan, joinHeights, tableHeights } from '../height-table.js';
import type { ReducedModel } from '../reduced-model.js';
import { condenseLaminate } from './condense.js';
import { type ControlContour, controlContour, degreeFor, higherAtPlaces, innerGrid, scaledContour } from './contour.js';
import { type Hold, holdsOf, type LaminateJoint, type Lens, lensAt, membraneStiffness } from './laminate.js';
import { meshLaminate } from './laminate-mesh.js';
import { lensSize, pocketForm } from './pocket.js';
import { limitProbes } from './probes.js';
import { sectionRecovery } from './recovery.js';

/** A laminate with its control contour, and what lies outside it condensed onto it. */
export interface LaminateOnContour {
  readonly joint: LaminateJoint;
  readonly contour: ControlContour;
  readonly host: RecoverableHost;
  readonly rows: readonly (readonly number[])[];
  /** Which of the host's supports holds the loads of each kind. */
  readonly supports: {
    readonly stretched: number;
    readonly free: number;
    readonly within: number;
    readonly strained?: number;
  };
}

/** Throws `InputError` for walls that leave no room. */
export function condenseOnContour(
  joint: LaminateJoint,
  wish: Omit<RoomWish, 'mirror'>,
  refinement = 1,
): LaminateOnContour {
  const contour = controlContour(joint, wish, refinement);
  const { different, supports } = differentHolds(joint);
  return { joint, contour, ...condenseLaminate(joint, contour, different, refinement), supports };
}

/** The holds of a laminate, each once, and which of them holds what. */
function differentHolds(joint: LaminateJoint) {
  const holds = holdsOf(joint.ends);
  const different: Hold[] = [];
  const numberOf = (hold: Hold) => {
    const known = different.findIndex((one) => one.distance === hold.distance && one.direction === hold.direction);
    return known < 0 ? different.push(hold) - 1 : known;
  };
  const supports = {
    stretched: numberOf(holds.stretched),
    free: numberOf(holds.free),
    within: numberOf(holds.within),
    ...(joint.row ? { strained: numberOf(holds.strained) } : {}),
  };
  return { different, supports };
}

const basisOf = ({ x, y }: Pick<ControlContour, 'x' | 'y'>, degree: number): RegularBasis =>
  contourBasis({ x, y, closed: false }, 0, (y[0]! + y.at(-1)!) / 2, degree);

function solveOnContour({ joint, host, supports }: LaminateOnContour, inside: Inside): SolvedHost {
  const { stretched, free, within, strained } = supports;
  const along: ScalarLoad = { name: 'stretch', size: 'force', scalar: 'stretch', support: stretched, symmetric: true };
  const solved = solveHost(host, inside, [
    ...(strained === undefined ? [] : [{ ...along, size: 'strain', scalar: 'strain', support: strained }]),
    along,
    { name: 'bend', size: 'moment', scalar: 'bend', support: free, symmetric: true },
    { name: 'shear', size: 'force', scalar: 'shear', support: free, symmetric: false },
    { name: 'flatwise', size: 'stress', scalar: 'flatwise', support: within, symmetric: true },
    { name: 'cure', size: 'deltaT', scalar: 'deltaT', support: free, symmetric: true },
    innerPressure(inside.basis, within),
  ]);
  if (strained !== undefined) return solved;
  const { direction } = holdsOf(joint.ends).stretched;
  const byStrain = membraneStiffness(joint, direction);
  const times = (values: Float64Array) => values.map((value) => value * byStrain);
  const [force] = solved.loads;
  return {
    ...solved,
    loads: [
      {
        ...force!,
        size: 'strain',
        undisturbed: times(force!.undisturbed),
        axialStress: byStrain * force!.axialStress!,
      },
      ...solved.loads,
    ],
    stresses(chosen, everyMoment) {
      const { still, maps } = solved.stresses(chosen, everyMoment);
      return { still: [times(still[0]!), ...still], maps };
    },
  };
}

/** @param onProgress is told the share of a table of heights that is done */
export function reduceLaminate(
  joint: LaminateJoint,
  wish: Omit<RoomWish, 'mirror'>,
  onProgress?: (share: number) => void,
): ReducedModel {
  const { pocket } = joint;
  if (pocket.made === 'drape' && pocket.follows !== undefined) {
    const plan = heightPlan(joint, wish);
    const models = plan.heights.map((height, k) => {
      const model = plan.reduce(height);
      onProgress?.((k + 1) / plan.heights.length);
      return model;
    });
    return joinHeights(plan, models);
  }
  const { accuracy, ...proof } = prove(condenseOnContour(joint, wish), wish);
  return { ...modelOf(proof.condensed, proof), accuracy, finer: finerFields(proof.finer) };
}

interface Proof extends SolvedTwice {
  readonly condensed: LaminateOnContour;
  readonly accuracy: number;
}

/** Edges of half a contour over the highest degree that they tell. */
const edgesOfDegree = 1.4;

/**
 * The room's degree for searches, more where finer fields, which tell reports and the stresses at places, change peaks around outlines at the limits of wall and edge radius by more than the wanted
 * accuracy. Beside thin films fields converge more slowly than the room alone asks for, and the contour has the edges for more: finer ones are finer by twice as much there.
 */
function prove(condensed: LaminateOnContour, wish: Omit<RoomWish, 'mirror'>): Proof {
  const { joint, contour, host } = condensed;
  const form = pocketForm(joint);
  const probes = limitProbes({ form, fold: (s, y) => [s, y], border: form }, wish);
  const degree = degreeFor(contour.aspect);
  const tells = (top: number) => (contour.x.length - 1) / 2 >= edgesOfDegree * top;
  const steps = tells(degree + 2 * higherAtPlaces) ? 2 : 1;
  const inside = insideContour(host.contour, joint.resin, basisOf(contour, degree + steps * higherAtPlaces));
  const finer = solveOnContour(condensed, inside);
  const upTo = (one: number): Proof => {
    const solved = solveOnContour(condensed, upToDegree(inside, one));
    return { condensed, solved, finer, accuracy: differenceAround(probes, solved, finer) };
  };
  const usual = upTo(degree);
  if (usual.accuracy <= wantedAccuracy) return usual;
  const next = upTo(degree + higherAtPlaces / 2);
  return next.accuracy < usual.accuracy ? next : usual;
}

/** With all fields of a basis, and with those up to a lower degree. */
function solveTwice(condensed: LaminateOnContour, basis: RegularBasis, degree: number): SolvedTwice {
  const inside = insideContour(condensed.host.contour, condensed.joint.resin, basis);
  return {
    solved: solveOnContour(condensed, upToDegree(inside, degree)),
    finer: solveOnContour(condensed, inside),
  };
}

/** What the heights of a table have in common: the control contour of the largest, in proportion, its basis, and the elements of the least. */
export function heightPlan(joint: LaminateJoint, wish: Omit<RoomWish, 'mirror'>): HeightPlan {
  const { layup } = joint;
  const pocket = joint.pocket as Lens & { readonly follows: NonNullable<Lens['follows']> };
  const { least, most, film } = pocket.follows;
  if (!(wish.wall <= mostWallOfFilm * film * (1 + 1e-9)))
    throw new InputError({
      path: 'channel.wall',
      expected: `at most ${mostWallOfFilm * film} mm, ${100 * mostWallOfFilm} % of the film: pockets follow their channels`,
      received: String(wish.wall),
      remedy: 'take a thinner wall, or a thicker film (host.pocket.film)',
    });
  const at = (height: number): LaminateJoint => ({ ...joint, pocket: lensAt(pocket, height) });
  const { level } = lensSize(layup, pocket);
  const largest = controlContour(at(most), wish);
  const contourAt = (height: number) => scaledContour(largest, height / most, level);
  const holds = differentHolds(joint);
  const choices = createChoices();
  sectionRecovery(at(least), meshLaminate(at(least), contourAt(least), {}, choices.first), choices.first);
  const degree = degreeFor(largest.aspect);
  const basis = basisOf(largest, degree + higherAtPlaces);
  return {
    range: [least, most],
    heights: tableHeights([least, most]),
    reduce(height) {
      const contour = contourAt(height);
      const condensed: LaminateOnContour = {
        joint: at(height),
        contour,
        ...condenseLaminate(at(height), contour, holds.different, 1, choices.again()),
        supports: holds.supports,
      };
      const factor = height / most;
      const own = { ...basis, length: factor * basis.length, centreY: level + factor * (basis.centreY - level) };
      return modelOf(condensed, solveTwice(condensed, own, degree), true);
    },
  };
}

/** A channel that its pocket follows has the film beside it to a hair, which no wall may depend on. */
const mostWallOfFilm = 0.95;

function modelOf({ contour, host, rows }: LaminateOnContour, twice: SolvedTwice, everyMoment = false): ReducedModel {
  const around = { inner: innerGrid(contour), contour: contour.data };
  return placedModel('laminate', twice, { points: host.body.points, rows }, around, everyMoment);
}
