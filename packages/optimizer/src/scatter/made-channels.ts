import {
  byCount,
  type ChannelTask,
  type Curve,
  type CurveNodes,
  createCurveNodes,
  createOutlineMeasure,
  createStressModel,
  InputError,
  measureOutline,
  modelBorder,
  nodesNeeded,
  type SolvedEdge,
} from '@lumenfront/core';

/** Solves channels as they are made, one after the other. */
export interface MadeChannels {
  /** Overwritten by the next one; `undefined` for what is no channel of the joint: it crosses itself, leaves the control contour, or has no solution. */
  solve(made: Curve): SolvedEdge | undefined;
  /** Peak of the worst case of the channel last solved, MPa, with the cure load times `cure`: no solve. */
  peak(edge: SolvedEdge, cure: number): number;
}

/** Residual of the edge equation, far below what the nodes err by. */
const tolerance = 1e-7;
/** Nodes of the first look, which measures. */
const firstCount = 64;

/** @throws InputError for several channels */
export function refuseMadePair({ group }: Pick<ChannelTask['channel'], 'group'>): void {
  if (group !== undefined)
    throw new InputError({
      path: 'channels.number',
      expected: '1 where channels are judged as they are made',
      received: String(group.number),
      remedy: 'judge one channel by itself: how several deviate beside each other is not known yet',
    });
}

/** @param task on a joint that was solved with room for deviations */
export function createMadeChannels({ model, loads, cases, channel }: ChannelTask): MadeChannels {
  refuseMadePair(channel);
  const stress = createStressModel(model, loads, cases, { tolerance });
  const border = modelBorder(model);
  const measure = createOutlineMeasure();
  const extremes = { peak: 0, peakX: 0, peakY: 0, least: 0 };
  const cure = stress.loads.indexOf('cure');
  const factors = cases.map((one) => Float64Array.from(stress.loads, (load) => one.factors[load] ?? 0));
  const nodesOf = byCount(createCurveNodes);
  const placed = (made: Curve, count: number): CurveNodes | undefined => {
    const nodes = nodesOf(count);
    made.place(nodes);
    measureOutline(nodes, border, measure);
    return measure.simple && measure.wall >= 0 ? nodes : undefined;
  };

  return {
    solve(made) {
      const first = placed(made, firstCount);
      if (first === undefined) return undefined;
      const nodes = placed(made, nodesNeeded(first, made.fewestNodes));
      if (nodes === undefined) return undefined;
      const solved = stress.evaluate(nodes, made.mirror && stress.symmetric, 'cases');
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
