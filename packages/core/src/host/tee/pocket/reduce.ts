import {
  contourBasis,
  differenceAround,
  finerFields,
  type Inside,
  innerPressure,
  insideContour,
  type Probe,
  placedModel,
  type RecoverableHost,
  type SolvedHost,
  type SolvedTwice,
  solveHost,
  upToDegree,
  wantedAccuracy,
} from '../../condensed/index.js';
import type { RoomWish } from '../../contract.js';
import {
  type ControlContour,
  controlContour,
  degreeFor,
  higherAtPlaces,
  innerGrid,
  limitProbes,
} from '../../laminate/index.js';
import type { ReducedModel } from '../../reduced-model.js';
import { held, scalarLoads } from '../unit-loads.js';
import type { Beside } from './beside.js';
import { condensePocketTee } from './condense.js';
import { contourData } from './contour.js';
import type { PocketSite, PocketTee } from './site.js';

/** A tee with a pocket, condensed onto the control contour in it. */
interface PocketTeeOnContour {
  readonly joint: PocketTee;
  readonly site: PocketSite;
  readonly contour: ControlContour;
  readonly host: RecoverableHost;
  readonly rows: readonly (readonly number[])[];
}

/**
 * Condenses a tee with a pocket once, with the first of two degrees of which the finer one, which tells the stresses at places too, changes peaks around outlines at the limits of wall and
 * edge radius by no more than the wanted accuracy.
 *
 * @param onProgress is told the share that is done
 * @throws InputError for walls that leave no room
 */
export function reducePocketTee(
  joint: PocketTee,
  site: PocketSite,
  wish: Omit<RoomWish, 'mirror'>,
  onProgress?: (share: number) => void,
  beside?: Beside,
): ReducedModel {
  const contour = controlContour(site.laminate, wish);
  const condensed = { joint, site, contour, ...condensePocketTee(joint, site, contour, 1, beside) };
  onProgress?.(0.6);
  const probes = limitProbes(site, wish);
  const degree = degreeFor(contour.aspect);
  const degrees = [degree, degree + higherAtPlaces / 2, degree + higherAtPlaces] as const;
  const inside = insidePocket(condensed, degrees[2]);
  const proof = proveDegrees(
    degrees,
    (degree) => solveOnContour(condensed, degree < degrees[2] ? upToDegree(inside, degree) : inside),
    probes,
    () => onProgress?.(0.8),
  );
  onProgress?.(1);
  return { ...modelOf(condensed, proof), accuracy: proof.accuracy, finer: finerFields(proof.finer) };
}

/** A solution by fields of a degree, a finer one, and by how much that changes peaks. */
export interface DegreeProof extends SolvedTwice {
  readonly accuracy: number;
}

/** By the first of several degrees, upwards, of which the last one changes peaks around probes by no more than the wanted accuracy; else by the best. */
export function proveDegrees(
  degrees: readonly number[],
  solve: (degree: number) => SolvedHost,
  probes: readonly Probe[],
  onFirst?: () => void,
): DegreeProof {
  const finer = solve(degrees.at(-1)!);
  let best: DegreeProof | undefined;
  for (const degree of degrees.slice(0, -1)) {
    const solved = solve(degree);
    if (best === undefined) onFirst?.();
    const accuracy = differenceAround(probes, solved, finer);
    if (best === undefined || accuracy < best.accuracy) best = { solved, finer, accuracy };
    if (accuracy <= wantedAccuracy) break;
  }
  return best!;
}

function insidePocket({ joint, host }: PocketTeeOnContour, degree: number): Inside {
  const { y } = host.contour;
  const middle = (Math.min(...y) + Math.max(...y)) / 2;
  // The contour is its own mirror image in the frame's x = 0, which its basis counts on.
  return insideContour(host.contour, joint.pocket.resin, contourBasis(host.contour, 0, middle, degree));
}

function solveOnContour({ joint, host }: PocketTeeOnContour, inside: Inside): SolvedHost {
  return solveHost(host, inside, [...scalarLoads(joint.support, false), innerPressure(inside.basis, held)]);
}

function modelOf({ site, contour, host, rows }: PocketTeeOnContour, twice: SolvedTwice): ReducedModel {
  return placedModel(
    'tee',
    twice,
    { points: host.body.points, rows },
    { inner: innerGridIn(host, contour), contour: contourData(site, contour) },
  );
}

/** A bend's pocket reaches below its middle with its ends. */
function innerGridIn({ contour: { x, y } }: RecoverableHost, contour: ControlContour) {
  const flat = innerGrid(contour);
  return { ...flat, xMin: Math.min(...x), xMax: Math.max(...x), yMin: Math.min(...y), yMax: Math.max(...y) };
}
