import { InputError } from '../../errors.js';
import { differenceAround, finerFields, type SolvedHost, wantedAccuracy } from '../condensed/index.js';
import type { ReducedModel } from '../reduced-model.js';
import { limitProbes } from './probes.js';
import {
  condenseOnContour,
  finerDegree,
  type HostFineness,
  ifDefinite,
  modelOf,
  solveOnContour,
  solvePlaces,
  type TeeOnContour,
  usualFineness,
} from './reduce.js';
import { keepsBound } from './size.js';
import type { TeeJoint } from './tee.js';

/** Degrees that are tried on one host. An outline takes 1.3 times as long at 36, 1.6 times at 44. */
interface Attempt {
  readonly host: HostFineness;
  readonly degrees: readonly number[];
}

const attempts: readonly Attempt[] = [
  { host: usualFineness, degrees: [usualFineness.degree, 36, 44] },
  { host: { edges: 190, refinement: 2 }, degrees: [44] },
];

/** Of the finest fields, which the others are held against; the lower ones where walls are so thin that the contour's elements do not tell the highest on any host. */
const topDegrees = [finerDegree, 44, 36] as const;

/** Of what is left, each step's: three steps, the usual number, come to four fifths; recovering the stresses at the places is the rest. */
const stepShare = 0.4;

/** What a channel's room asks for (mm), and who is told how far the reduction is. */
export interface TeeWish {
  readonly wall: number;
  readonly edgeRadius: number;
  readonly onProgress?: ((share: number) => void) | undefined;
}

/**
 * Condenses a tee as finely as its fields ask for: with the first degree of which the finest one changes peaks around outlines at the
 * limits of wall and edge radius (mm) by no more than the wanted accuracy. It is a higher one where the filler is much stiffer or softer than
 * the plies, or the wall is thin against the bend radius. Where none is enough, or a finer host would pass the bound of accepted joints, the best; `accuracy` of the model says how good it is.
 *
 * @throws InputError for a joint or walls that leave no room, or walls too thin for any fields
 */
export function proveTee(joint: TeeJoint, { wall, edgeRadius, onProgress }: TeeWish): ReducedModel {
  let done = 0;
  const told = <T>(step: T): T => {
    done += (1 - done) * stepShare;
    onProgress?.(done);
    return step;
  };
  const probes = limitProbes(joint.bendRadius, wall, edgeRadius);
  const proveUpTo = (top: number): Proof | undefined => {
    let best: Proof | undefined;
    for (const { host, degrees } of attempts) {
      if (best !== undefined && !keepsBound(joint, host.refinement / usualFineness.refinement)) break;
      const condensed = told(condenseOnContour(joint, wall, edgeRadius, host));
      const solve = (degree: number) => told(ifDefinite(() => solveOnContour(condensed, degree)));
      const finer = solve(top);
      if (finer === undefined) continue;
      for (const degree of degrees) {
        const solved = degree < top ? solve(degree) : undefined;
        if (solved === undefined) continue;
        const accuracy = differenceAround(probes, solved, finer);
        // Written so that what was not solved, NaN, is worse than any.
        if (best === undefined || accuracy <= best.accuracy) best = { condensed, solved, finer, accuracy };
        if (accuracy <= wantedAccuracy) return best;
      }
    }
    return best;
  };
  for (const top of topDegrees) {
    const proof = proveUpTo(top);
    if (proof !== undefined) return provedModel(proof);
  }
  throw new InputError({
    path: 'channel.wall',
    expected: `walls that fields along a control contour can tell, beside a bend radius of ${joint.bendRadius} mm`,
    received: `a wall of ${wall} mm and an edge radius of ${edgeRadius} mm`,
    remedy: 'ask for more channel.wall and channel.edgeRadius',
  });
}

/** A solution, and the finer one that it is held against. */
interface Proof {
  readonly condensed: TeeOnContour;
  readonly solved: SolvedHost;
  readonly finer: SolvedHost;
  readonly accuracy: number;
}

function provedModel({ condensed, solved, finer, accuracy }: Proof): ReducedModel {
  return {
    ...modelOf(condensed, { solved, finer, places: solvePlaces(condensed) }),
    accuracy,
    finer: finerFields(finer),
  };
}
