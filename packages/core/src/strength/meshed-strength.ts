import {
  cureLoad,
  hostOf,
  isMirrored,
  type Joint,
  type LoadCase,
  type Loads,
  meshJoint,
  type ReducedModel,
  type SectionPoint,
  splitsAt,
} from '../host/index.js';
import { alone, type CurveNodes, placedChannels, type SideBySide } from '../outline/index.js';
import { caseFactors, channelCurves, meshedHoop, meshedPlaces } from '../stress/index.js';
import { splitCase } from './case-split.js';
import { delaminationFactor, type PointStress, principalFactor, tensionFactor } from './criteria.js';
import type { FailureCriterion } from './first-failure.js';
import { awayFromTips } from './joint-judge.js';
import type { CaseSurvey } from './joint-strength.js';
import { judgedRows } from './judged-points.js';
import type { FailurePlace } from './place-strengths.js';

/** How a meshed section is judged. */
export interface MeshedStrengthOptions {
  /** As in `StrengthOptions`, mm. */
  readonly cuspDistance?: number | undefined;
  /** As in `MeshedOptions`. */
  readonly coarseness?: number;
  readonly channels?: SideBySide;
}

/**
 * The independent check of a survey, the edge judged by its peak: the same criteria at the same points, the limit around the tips included, and along the
 * outline, but every stress from cubic finite elements of the whole section with the channel in it. Takes seconds. `nodes`: 256 serve any
 * admissible outline; `undefined`: the joint without channel. Between them a parabola is laid through the edge's load factors: a sharp tip has 1 % more
 * stress there, and where the cure takes most of the strength, 1 % of stress is several of the factor.
 */
export function meshedStrength(
  task: {
    readonly joint: Joint;
    readonly loads: Loads;
    readonly cases: readonly LoadCase[];
    readonly model: Pick<ReducedModel, 'kind' | 'places' | 'responses'>;
  },
  nodes: CurveNodes | undefined,
  { cuspDistance, coarseness = 1, channels = alone }: MeshedStrengthOptions = {},
): readonly CaseSurvey[] {
  const { joint, loads, cases, model } = task;
  const host = hostOf(joint);
  const right = judgedRows(model, awayFromTips(host, cuspDistance)).flatMap((row) => row.map(({ at }) => at));
  const points = isMirrored(model) ? [...right, ...right.filter(({ x }) => x > 0).map(mirrored)] : right;
  const curves = channelCurves(nodes, channels);
  const meshed = meshJoint(joint, loads, curves, coarseness);
  const edge = nodes && { hoop: meshedHoop(host, meshed, loads, nodes, curves) };
  const placed = nodes === undefined ? [] : placedChannels(nodes, channels);
  const stresses = meshedPlaces(joint, meshed, points);
  const names = Object.keys(stresses);

  return cases.map((one) => {
    const { fixed, scaled } = splitCase(caseFactors(one, names), names.indexOf(cureLoad.name));
    const found = new Map<FailurePlace, CaseSurvey['places'][number]>();
    const meet = (
      place: FailurePlace,
      criterion: FailureCriterion,
      factor: number,
      { x, y }: Pick<SectionPoint, 'x' | 'y'>,
    ) => {
      if (factor < (found.get(place)?.factor ?? Number.POSITIVE_INFINITY))
        found.set(place, { place, criterion, factor, x, y });
    };
    /** Component `at` of all loads, weighted. */
    const sum = (of: typeof stresses, weights: Float64Array, at: number) =>
      names.reduce((total, name, l) => total + weights[l]! * of[name]![at]!, 0);
    placed.forEach(({ nodes, isImage }, k) => {
      const { count, x, y } = nodes;
      const { hoop } = edge!;
      const along = Array.from({ length: count }, (_, j) =>
        tensionFactor(
          sum(hoop, fixed, k * count + j),
          sum(hoop, scaled, k * count + j),
          host.material.transverseTension,
        ),
      );
      along.forEach((_, j) => {
        const node = isImage ? count - 1 - j : j;
        meet('edge', 'splitting', leastBeside(along, j), { x: x[node]!, y: y[node]! });
      });
    });
    points.forEach((point, p) => {
      const { place } = point;
      const at = (weights: Float64Array): PointStress => ({
        n: sum(stresses, weights, 3 * p),
        t: sum(stresses, weights, 3 * p + 1),
        s: sum(stresses, weights, 3 * p + 2),
      });
      const [held, grown] = [at(fixed), at(scaled)];
      const { tension, shear, principal, kinking } = host.strengthAt(point);
      if (Number.isFinite(tension)) meet(place, 'delamination', delaminationFactor(held, grown, tension, shear), point);
      if (Number.isFinite(principal))
        meet(splitsAt(joint.kind, place), 'splitting', principalFactor(held, grown, principal), point);
      if (kinking !== undefined) meet(place, 'kinking', tensionFactor(-held.t, -grown.t, kinking), point);
    });
    return { name: one.name, places: [...found.values()] };
  });
}

/** The same place on the left, in mirrored axes but for the sign of the shear, which no criterion asks for. */
function mirrored(point: SectionPoint): SectionPoint {
  return { ...point, x: -point.x, normalAngle: Math.PI - point.normalAngle };
}

/** Least of a parabola through the value at place j of a closed sequence and its neighbours, where j is no higher than they are. */
function leastBeside(values: readonly number[], j: number): number {
  const here = values[j]!;
  const before = values.at(j - 1)!;
  const after = values[(j + 1) % values.length]!;
  const bend = before - 2 * here + after;
  if (here > before || here > after || !(bend > 0) || !Number.isFinite(bend)) return here;
  return Math.max(0, here - (after - before) ** 2 / (8 * bend));
}
