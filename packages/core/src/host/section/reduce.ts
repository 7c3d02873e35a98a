import {
  contourBasis,
  differenceAround,
  innerPressure,
  type ScalarLoad,
  type SolvedHost,
  solveHost,
  wantedAccuracy,
} from '../condensed/index.js';
import type { RoomWish } from '../contract.js';
import type { ReducedModel } from '../reduced-model.js';
import type { SectionBody } from './body.js';
import { type CondensedSection, condenseSection, scalarOf } from './condense.js';
import { type ControlContour, controlContour } from './contour.js';
import { limitProbes } from './probes.js';

const held = 0;
const free = 1;

/** Degrees above the first that are tried, the last of them as judge only. */
const further = [8, 16] as const;

/** Of what is left, each step's: condensing and two solutions, the usual number, come to four fifths. */
const stepShare = 0.4;

/**
 * Condenses a section once, with the first degree of which the next one changes peaks around outlines at the limits of wall and edge
 * radius by no more than the wanted accuracy; where none is enough, with the best. What the user's mesh errs by it does not know: the check tells.
 *
 * @throws InputError for walls that leave no room, and for loads that supports do not hold
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
  const contour = controlContour(section.border, section.box, wish);
  const condensed = told(condenseSection(section, contour));
  const solve = (degree: number) => told(solveOnContour(section, contour, condensed, degree));
  const probes = limitProbes(section, wish);
  let solved = solve(contour.degree);
  let best: { readonly solved: SolvedHost; readonly finer: SolvedHost; readonly accuracy: number } | undefined;
  for (const step of further) {
    const finer = solve(contour.degree + step);
    const accuracy = differenceAround(probes, solved, finer);
    if (best === undefined || accuracy <= best.accuracy) best = { solved, finer, accuracy };
    if (accuracy <= wantedAccuracy) break;
    solved = finer;
  }
  const { accuracy, finer } = best!;
  return {
    ...modelOf(section, contour, condensed, best!.solved),
    accuracy,
    finer: {
      basis: finer.basis,
      responses: finer.responses,
      undisturbed: finer.loads.map(({ undisturbed }) => undisturbed),
    },
  };
}

function solveOnContour(
  { joint }: SectionBody,
  contour: ControlContour,
  { host }: CondensedSection,
  degree: number,
): SolvedHost {
  const basis = contourBasis(contour, ...contour.middle, degree);
  return solveHost(host, joint.surfaces[joint.filler]!.ply, basis, [
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
  { stresses, ...solved }: SolvedHost,
): ReducedModel {
  const chosen = rows.flat();
  const points = chosen.map((point) => host.sectionPoints[point]!);
  const { loads, change } = stresses(chosen);
  const range = (values: Float64Array) => [Math.min(...values), Math.max(...values)] as const;
  const [[xMin, xMax], [yMin, yMax]] = [range(contour.x), range(contour.y)];
  return {
    kind: 'section',
    ...solved,
    loads,
    places: {
      points,
      rows: rows.map(({ length }) => length),
      change,
      continued: { points: new Uint8Array(points.length), within: 0 },
      inner: { xMin, xMax, yMin, yMax, step: (2 * circle.radius) / across },
    },
    contour: contour.data,
  };
}
