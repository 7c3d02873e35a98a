import type { HostSize } from './contract.js';

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
 * and 175 to 412 MB, a mesh from 0.9 to 6.6 s; on laminates of 2,000 to 9,900 elements with 92 to 486 edges in the contour: 2.8 to 22 s,
 * 202 to 997 MB; on tees with a pocket, 10,200 and 25,100 elements: 8 to 12 and 53 s, 368 and 1,124 MB; on a foot of a hat stiffener: 5.4 s, 212 MB.
 */
const reduction = { fixed: 1, element: 0.9e-3, contour: 5e-5 };
const memory = { fixed: 130, element: 0.037, contour: 2.1e-3, finest: 0.4 };
/** The usual mesh and the finer one that tells its error. */
const check = { triangle: 0.3e-3, meshes: 2.5 };

/**
 * Beyond these a section is refused (MB, s; triangles take 0.25 GB for 7,600), by its usual model: two tees of 14,700 and 15,400 elements (0.7 and
 * 0.9 GB so) took 615 and 771 MB, 6 and 13 s, a laminate with walls of 0.01 mm (1.5 GB) 1,519 MB and 23 s. Nor is a finer model tried beyond them.
 */
const mostMemory = 1000;
const longestReduction = 60;
const mostTriangles = 40_000;

const grouped = (count: number): string => Math.round(count).toLocaleString('en-US');

/** For messages. */
export const effortBound = `is solved within ${longestReduction} s and ${mostMemory / 1000} GB, and meshed in at most ${grouped(mostTriangles)} triangles for its check`;

type Parts = Omit<HostSize, 'finest'>;

/** Of the model that most joints need, MB. */
const usualMemory = ({ elements, contour = 0 }: Parts): number =>
  memory.fixed + memory.element * elements + memory.contour * contour ** 2;

/** s */
const leastReduction = ({ elements, contour = 0, models = 1 }: Parts): number =>
  models * (reduction.fixed + reduction.element * elements + reduction.contour * contour ** 2);

export function effortOf(size: HostSize): Effort {
  const { finest, triangles } = size;
  const least = leastReduction(size);
  return {
    reduction: [least, finest * least],
    check: check.triangle * check.meshes * triangles,
    memory: (1 + memory.finest * (finest - 1)) * usualMemory(size),
  };
}

/** What makes a section take too much, if it does: `contour` where walls and edge radii do. */
export function beyondBound(size: Parts): 'elements' | 'contour' | 'triangles' | undefined {
  const { elements, contour = 0, triangles } = size;
  const isMeshed = triangles <= mostTriangles;
  if (isMeshed && usualMemory(size) <= mostMemory && leastReduction(size) <= longestReduction) return undefined;
  if (memory.contour * contour ** 2 > memory.element * elements) return 'contour';
  return isMeshed ? 'elements' : 'triangles';
}

/** For messages: what it comes to. */
export const describeSize = (size: Parts): string =>
  `about ${grouped(size.elements)} elements (${Math.round(leastReduction(size))} s, ${(usualMemory(size) / 1000).toFixed(1)} GB) and ${grouped(size.triangles)} triangles`;
