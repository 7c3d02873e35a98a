import {
  type ChannelTask,
  type CurvatureDesign,
  type Curve,
  createEdgeProfiler,
  curvatureOutline,
  fitCurvature,
  taskFamilies,
} from '@lumenfront/core';
import { descendCurvature } from './curvature-descent.js';

/** An outline of a family, by its number in the task, or one by curvature. Plain data. */
export type RefineStart = { readonly family: number; readonly x: Float64Array } | CurvatureDesign;

/** Asks for the least peak at no less than an area, by an outline of free curvature that begins where another one is. Plain data. */
export interface RefineRequest {
  readonly start: RefineStart;
  /** Least area, mm2. */
  readonly area: number;
  /** Coefficients of the curvature. */
  readonly pieces: number;
  readonly nodes: number;
  /** First radius of trust, in mean radii. */
  readonly radius: number;
  readonly slopes: number;
  /** Evaluations to spend at most. */
  readonly most: number;
}

/** What was reached. Plain data. */
export interface RefineResult {
  /** Undefined where the start could not be fitted or solved. */
  readonly design: CurvatureDesign | undefined;
  /** With twice the nodes: mm2, MPa. */
  readonly area: number;
  readonly peak: number;
  /** What is missing of the area, as a share, or of the room, mm. */
  readonly violation: number;
  /** See `CurvatureDescent`. */
  readonly locallyOptimalWithin: number;
  readonly stop: string;
  readonly evaluations: number;
}

/** Kept from the least radius by a fit: a descent needs room to move. */
const fitMargin = 1.001;

/** Refines outlines of one task. Each begins with a fit: the knots go to where the curvature has gone. */
export function createRefiner(task: ChannelTask): (request: RefineRequest) => RefineResult {
  const families = taskFamilies(task);
  const profiler = createEdgeProfiler(task);
  const { edgeRadius } = task.channel;

  const curveOf = (start: RefineStart): Curve => {
    if ('form' in start) {
      const outline = curvatureOutline(start.form);
      return { mirror: start.form.mirror, place: (nodes) => outline.place(start.values, nodes) };
    }
    const family = families[start.family]!;
    return { mirror: family.mirror, place: (nodes) => family.place(start.x, nodes) };
  };

  return ({ start, area, pieces, nodes, radius, slopes, most }) => {
    const failed = (stop: string, evaluations: number): RefineResult => ({
      design: undefined,
      area: 0,
      peak: Number.NaN,
      violation: Number.POSITIVE_INFINITY,
      locallyOptimalWithin: Number.NaN,
      stop,
      evaluations,
    });
    const fit = fitCurvature(curveOf(start), pieces, fitMargin * edgeRadius);
    if (fit === undefined) return failed('no fit', 0);
    const { outline } = fit;
    const { values, stop, evaluations, locallyOptimalWithin } = descendCurvature(profiler, {
      fit,
      area,
      edgeRadius,
      nodes,
      radius,
      slopes,
      most: most - 1,
    });
    const seen = profiler.profile(outline, values, 2 * nodes);
    if (seen === undefined) return failed(stop, evaluations + 1);
    return {
      design: { form: outline.form, values },
      area: seen.area,
      peak: seen.peak,
      violation: Math.max(0, 1 - seen.area / area, -seen.room.reduce((a, b) => Math.min(a, b))),
      locallyOptimalWithin,
      stop,
      evaluations: evaluations + 1,
    };
  };
}
