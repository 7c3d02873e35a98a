import {
  type ChannelTask,
  type Curve,
  type CurveNodes,
  createCurveNodes,
  createOutlineMeasure,
  createStressModel,
  distanceOutside,
  measureOutline,
  modelBorder,
  nodesNeeded,
  perCount,
  placedChannels,
  type SolvedEdge,
  sideBySide,
} from '@lumenfront/core';
import { type Deviation, deviateNodes } from './perturb.js';

/** Solves channels as they are made, one joint after the other. */
export interface MadeChannels {
  /** Channels of one joint. */
  readonly number: number;
  /**
   * Of an outline as drawn, or as each channel of it deviates by one of `shapes`. Overwritten by the next one; `undefined` for what is no channel of the joint: it crosses itself or
   * another one, leaves the control contour, or has no solution.
   */
  solve(drawn: Curve, shapes?: readonly Deviation[]): SolvedEdge | undefined;
  /** Peak of the worst case of the channels last solved, MPa, with the cure load times `cure`: no solve. */
  peak(edge: SolvedEdge, cure: number): number;
}

/** Residual of the edge equation, far below what the nodes err by. */
const tolerance = 1e-7;
/** Nodes of the first look, which measures. */
const firstCount = 64;
/** Nodes of each of several channels at most, whose matrix has 16 million numbers: a multiple of 16, as all counts are. */
const mostNodes = (channels: number): number => 16 * Math.floor(128 / channels);

/** @param task on a joint that was solved with room for deviations */
export function createMadeChannels({ model, loads, cases, channel }: ChannelTask): MadeChannels {
  const group = sideBySide(channel);
  const stress = createStressModel(model, loads, cases, { tolerance, channels: group });
  const border = modelBorder(model);
  const measure = createOutlineMeasure();
  const extremes = { peak: 0, peakX: 0, peakY: 0, least: 0 };
  const cure = stress.loads.indexOf('cure');
  const factors = cases.map((one) => Float64Array.from(stress.loads, (load) => one.factors[load] ?? 0));
  const nodesOf = perCount(createCurveNodes);
  const othersOf = (made: readonly CurveNodes[], k: number) => made.filter((_, other) => other !== k);
  const placed = (drawn: Curve, count: number, shapes?: readonly Deviation[]): CurveNodes[] | undefined => {
    const given = nodesOf(count);
    drawn.place(given);
    const made = placedChannels(given, group).map(({ nodes }) => nodes);
    shapes?.forEach((shape, k) => {
      deviateNodes(made[k]!, shape);
    });
    const isChannel = (nodes: CurveNodes, k: number) => {
      const others = othersOf(made, k);
      const distance = (x: number, y: number) =>
        others.reduce((least, other) => Math.min(least, distanceOutside(other, x, y)), border.distance(x, y));
      measureOutline(nodes, { distance }, measure);
      return measure.simple && measure.wall >= 0;
    };
    return made.every(isChannel) ? made : undefined;
  };

  return {
    number: group.number,
    solve(drawn, shapes) {
      const first = placed(drawn, firstCount, shapes);
      if (first === undefined) return undefined;
      const needed = first.map((nodes, k) => nodesNeeded(nodes, drawn.fewestNodes, [], othersOf(first, k)));
      const made = placed(drawn, Math.min(Math.max(...needed), mostNodes(group.number)), shapes);
      if (made === undefined) return undefined;
      const solved =
        group.number > 1
          ? stress.evaluateEach(made, 'cases')
          : stress.evaluate(made[0]!, shapes === undefined && drawn.mirror && stress.symmetric, 'cases');
      return Number.isFinite(solved.worst) ? solved : undefined;
    },
    peak(edge, factor) {
      if (factor === 1 || cure < 0) return edge.worst;
      let worst = Number.NEGATIVE_INFINITY;
      factors.forEach((given, c) => {
        let { peak } = edge.cases[c]!;
        if (given[cure] !== 0) {
          const scaled = given.slice();
          scaled[cure]! *= factor;
          stress.combine(edge, scaled, extremes);
          peak = extremes.peak;
        }
        worst = Math.max(worst, peak);
      });
      return worst;
    },
  };
}
