import { InputError } from '../../errors.js';
import {
  contourBasis,
  differenceAround,
  finerFields,
  innerPressure,
  type Probe,
  placedModel,
  type ScalarLoad,
  type SolvedHost,
  type SolvedTwice,
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

/** Of what is left, each step's: condensing and two solutions, the usual number, come to four fifths. */
const stepShare = 0.4;

/** Steps between the degrees that are tried, upwards and downwards. */
const upwards = 8;
const downwards = 4;
/** The difference beyond which more degrees make it worse: the fields are near to dependent on a filler unlike its mirror image. */
const breakdown = 0.02;
/** Worse than this no model is handed out. */
const mostDifference = 0.1;

/**
 * Condenses a section once, with the first degree of which the next one changes peaks around outlines at the limits of wall and edge
 * radius by no more than the wanted accuracy; where none is enough, with the best. What the user's mesh errs by it does not know: the check tells.
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
  const contour = controlContour(section.border, section.box, wish);
  const condensed = told(condenseSection(section, contour));
  const solve = (degree: number) => told(solveOnContour(section, contour, condensed, degree));
  const { solved, finer, accuracy } = bestOf(contour.degree, solve, limitProbes(section, wish));
  if (!(accuracy <= mostDifference))
    throw new InputError({
      path: 'host.filler',
      expected:
        'a filler in which channels can be modelled: not very long and thin at one end, not bent round a corner',
      received: `${section.joint.filler}, around which peaks are ${Math.round(100 * accuracy)} % in doubt`,
      remedy: 'name a more compact part of it as the filler, and the rest as a surface of the same material',
    });
  return {
    ...modelOf(section, contour, condensed, { solved, finer }),
    accuracy,
    finer: finerFields(finer),
  };
}

/** A solution, the finer one that it is held against, and by how much peaks differ; NaN where one was not found. */
interface Proof {
  readonly solved: SolvedHost;
  readonly finer: SolvedHost;
  readonly accuracy: number;
}

function bestOf(degree: number, solve: (degree: number) => SolvedHost, probes: readonly Probe[]): Proof {
  const known = new Map<number, SolvedHost | undefined>();
  const at = (n: number) => {
    if (!known.has(n))
      known.set(
        n,
        solvedOr(() => solve(n)),
      );
    return known.get(n);
  };
  let best: Proof | undefined;
  const attempt = (from: number, to: number): number => {
    const [solved, finer] = [at(from), at(to)];
    const accuracy = solved && finer ? differenceAround(probes, solved, finer) : Number.NaN;
    if (solved && finer && (best === undefined || accuracy <= best.accuracy)) best = { solved, finer, accuracy };
    return accuracy;
  };
  let last = attempt(degree, degree + upwards);
  if (!(last <= wantedAccuracy))
    if (last <= breakdown) attempt(degree + upwards, degree + 2 * upwards);
    else
      for (let n = degree - downwards; n >= 3 * downwards; n -= downwards) {
        const before = last;
        last = attempt(n, n + downwards);
        if (last <= wantedAccuracy || last > before) break;
      }
  if (best === undefined) throw new Error('the section was solved with no degree');
  return best;
}

/** What is not positive definite has no solution: fields of that degree are dependent. */
function solvedOr(solve: () => SolvedHost): SolvedHost | undefined {
  try {
    return solve();
  } catch (error) {
    if (error instanceof Error && /positive definite/.test(error.message)) return undefined;
    throw error;
  }
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
  twice: SolvedTwice,
): ReducedModel {
  const range = (values: Float64Array) => [Math.min(...values), Math.max(...values)] as const;
  const [[xMin, xMax], [yMin, yMax]] = [range(contour.x), range(contour.y)];
  return placedModel(
    'section',
    twice,
    { points: host.sectionPoints, rows },
    { inner: { xMin, xMax, yMin, yMax, step: (2 * circle.radius) / across }, contour: contour.data },
  );
}
