import { hostOf } from '../host/index.js';
import type { ResolvedBrief } from './resolved.js';

/** What a joint takes before its first outline is scored, on one core of 2.5 GHz or so: a rough guess, within a half. */
export interface Effort {
  /** s. The larger one where the joint asks for a finer model: thin walls, sharp edges, fillers much unlike the plies. */
  readonly reduction: readonly [least: number, most: number];
  /** Of one channel by the independent mesh, s. */
  readonly check: number;
  /** Most that the reduction holds at once, MB. */
  readonly memory: number;
}

/**
 * Measured on 20 kinds of tees with 1,000 to 7,600 elements and 4,400 to 21,000 triangles (Node 20): reductions from 1.7 to 7.7 s of processor time
 * and 175 to 412 MB, a mesh from 0.9 to 6.6 s.
 */
const reduction = { fixed: 1, element: 0.9e-3, finest: 3 };
const memory = { fixed: 130, element: 0.037, finest: 1.8 };
/** The usual mesh and the finer one that tells its error. */
const check = { triangle: 0.3e-3, meshes: 2.5 };

/** Undefined for sections that take no time to speak of, or tell no size. */
export function estimateEffort({ joint }: Pick<ResolvedBrief, 'joint'>): Effort | undefined {
  const { size } = hostOf(joint);
  if (size === undefined) return undefined;
  const least = reduction.fixed + reduction.element * size.elements;
  return {
    reduction: [least, reduction.finest * least],
    check: check.triangle * check.meshes * size.triangles,
    memory: memory.finest * (memory.fixed + memory.element * size.elements),
  };
}
