import {
  type ChannelTask,
  type CurvatureDesign,
  type CurvatureFit,
  type Curve,
  createEdgeProfiler,
  curvatureOutline,
  type EdgeProfile,
  fitCurvature,
  mirrorLines,
  sideBySide,
  taskFamilies,
} from '@lumenfront/core';
import { descendCurvature, outlineBeside, type SlopesAt } from './curvature-descent.js';
import { largestOutline } from './largest-outline.js';
import { mirrored } from './mirrored-task.js';

/** An outline of a family, by its number in the task. Plain data. */
export interface FamilyStart {
  readonly family: number;
  readonly x: Float64Array;
  /** Of the task's families of mirror-symmetric outlines, where it asks for others. */
  readonly mirrored?: boolean;
}

/** An outline by curvature, and the nodes that it needs. Plain data. */
export interface SolvedDesign extends CurvatureDesign {
  readonly nodes: number;
}

/** What a refinement begins with. */
export type RefineStart = FamilyStart | SolvedDesign;

/** Asks for the least peak at no less than an area, by an outline of free curvature that begins where another one is. Plain data. */
export interface RefineRequest {
  readonly start: RefineStart;
  /** First goes to the largest outline that keeps all limits, whatever it costs. */
  readonly largest?: boolean;
  /** Least areas, mm2, or shares of that of the largest: that of the start, then others, each from where the last one came to. */
  readonly areas: readonly number[];
  /** Coefficients of the curvature; undefined: the start's own form is kept. */
  readonly pieces: number | undefined;
  /** First radius of trust, in mean radii. */
  readonly radius: number;
  /** Slopes for the first area, and for each of the others. */
  readonly slopes: number;
  readonly slopesBeyond: number;
  /** Foretold gain, as a share, below which an area counts as done; left out: next to nothing. */
  readonly enough?: number;
  /** A stage on the way: its cost is not seen with twice the nodes, and there is no certificate. */
  readonly rough?: boolean;
  /** Shares by which areas lie beside each of those above; each outline is foretold from the slopes there. */
  readonly beside: readonly (readonly number[])[];
  /** Evaluations to spend at most. */
  readonly most: number;
}

/** Where a refinement came to. Plain data. */
export interface RefinedOutline {
  readonly design: SolvedDesign;
  /** With twice the nodes, or corrected by what they change beside it, but for a stage on the way: mm2, MPa or what else the task keeps small. */
  readonly area: number;
  readonly cost: number;
  /** What is missing of the room, mm, or of what is asked of the strength. */
  readonly violation: number;
  /** See `CurvatureDescent`. */
  readonly locallyOptimalWithin: number;
}

/** What was reached. Plain data. */
export interface RefineResult {
  /** One to an area, in their order; fewer where one could not be fitted or solved or the budget was spent. */
  readonly reached: readonly RefinedOutline[];
  readonly stop: string;
  readonly evaluations: number;
}

/** Kept from the least radius by a fit: a descent needs room to move. */
const fitMargin = 1.001;
/** Limits on strength are kept with 0.003 to spare (core's `inverse-terms`); so much of that twice the nodes may take. */
const spare = 0.002;
/** What a profile with twice the nodes costs, and an outline beside a solved one, in evaluations. */
export const finerCost = 4;
export const besideCost = 2;
/** Violation from which on an area counts as too large. */
const hopeless = 1e-3;

/** An outline by curvature to begin from, and what it took. */
interface Begun extends CurvatureFit {
  readonly evaluations: number;
  /** Area that those asked for are shares of, or 1. */
  readonly whole: number;
}

/** Refines outlines of one task. Each begins with a fit, or where it has come to: then knots go to where the curvature has gone. */
export function createRefiner(task: ChannelTask): (request: RefineRequest) => RefineResult {
  const families = taskFamilies(task);
  let symmetric: typeof families | undefined;
  const profiler = createEdgeProfiler(task);
  const { edgeRadius } = task.channel;
  const lines = mirrorLines(sideBySide(task.channel));

  const curveOf = (start: RefineStart): Curve => {
    if ('form' in start) {
      const outline = curvatureOutline(start.form);
      return { mirror: start.form.mirror, place: (nodes) => outline.place(start.values, nodes) };
    }
    if (start.mirrored === true) symmetric ??= taskFamilies(mirrored(task));
    const family = (start.mirrored === true ? symmetric! : families)[start.family]!;
    return { mirror: family.mirror, place: (nodes) => family.place(start.x, nodes) };
  };
  const begin = ({ start, largest, pieces, most }: RefineRequest): Begun | undefined => {
    if (pieces === undefined) {
      if (!('form' in start)) throw new Error('no form');
      const { form, values, nodes } = start;
      return { outline: curvatureOutline(form), values, nodes, evaluations: 0, whole: 1 };
    }
    const curve = curveOf(start);
    const radius = fitMargin * edgeRadius;
    if (largest === true) {
      const grown = largestOutline(
        profiler,
        { curve, fitted: 'form' in start },
        { pieces, edgeRadius: radius, lines, most },
      );
      return grown && { ...grown.fit, evaluations: grown.evaluations, whole: grown.area };
    }
    const fit = fitCurvature(curve, pieces, radius, lines);
    return fit && { ...fit, evaluations: 0, whole: 1 };
  };

  return (request) => {
    const { radius, slopes, slopesBeyond, enough, rough, beside, most } = request;
    profiler.forget();
    const begun = begin(request);
    if (begun === undefined) return { reached: [], stop: 'no fit', evaluations: 0 };
    const { outline, nodes, whole } = begun;
    const areas = request.areas.map((area) => whole * area);
    const reached: RefinedOutline[] = [];
    let { values, evaluations } = begun;
    let known: SlopesAt | undefined;
    let stop = 'budget spent';
    const seeing = rough === true ? 0 : finerCost;
    for (const [k, area] of areas.entries()) {
      const here = { outline, edgeRadius, nodes };
      const descent = descendCurvature(profiler, {
        ...here,
        values,
        known,
        area,
        radius,
        slopes: k === 0 ? slopes : slopesBeyond,
        most: most - evaluations - seeing,
        enough,
        rough,
      });
      ({ values, known, stop } = descent);
      evaluations += descent.evaluations + seeing;
      const seen = rough === true ? known?.profile : profiler.profile(outline, values, 2 * nodes);
      if (seen === undefined) break;
      const design = (at: Float64Array): SolvedDesign => ({ form: outline.form, values: at, nodes });
      const violation = violationOf(seen);
      const { locallyOptimalWithin } = descent;
      reached.push({ design: design(values), area: seen.area, cost: seen.cost, violation, locallyOptimalWithin });
      if (known === undefined) break;
      const finer = seen.cost / known.profile.cost;
      for (const share of beside[k]!) {
        if (evaluations + besideCost > most) break;
        evaluations += besideCost;
        const wanted = area * (1 + share);
        const found = outlineBeside(profiler, { ...here, values, area: wanted, known });
        if (found === undefined) continue;
        const { profile, locallyOptimalWithin } = found;
        reached.push({
          design: design(found.values),
          area: profile.area,
          cost: finer * profile.cost,
          violation: violationOf(profile),
          locallyOptimalWithin,
        });
      }
      // What does not fit will not fit with more area.
      if (Math.max(violation, 1 - seen.area / area) > hopeless && areas[k + 1]! > area) break;
    }
    return { reached, stop, evaluations };
  };
}

/** What is missing of the room, mm, or of what is asked of the strength. Less area than was aimed at is none: a design has the area that it has. */
const violationOf = ({ room, limits }: EdgeProfile): number =>
  Math.max(
    0,
    -room.reduce((a, b) => Math.min(a, b)),
    limits.reduce((a, b) => Math.max(a, b - spare), 0),
  );
