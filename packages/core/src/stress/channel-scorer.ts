import type { InnerPoint } from '../edge/index.js';
import {
  type CurveNodes,
  createCurveNodes,
  createOutlineMeasure,
  measureOutline,
  nodesNeeded,
  type OutlineFamily,
} from '../outline/index.js';
import { type ChannelTask, channelBorder, taskFamilies } from './channel-task.js';
import { innerPoint } from './inner-point.js';
import { createStressModel } from './stress-model.js';

/** Places in a score. Constraints are met at 0 and below, normalised by the size of what is asked for. */
export const scoreAt = {
  /** mm2 */
  area: 0,
  /** Peak hoop tension of the worst case, MPa; 0 where a constraint is violated (not computed), NaN where it could not be solved. */
  peak: 1,
  /** Least wall (tee) or largest extent (plate). */
  room: 2,
  edgeRadius: 3,
  /** The outline crosses itself. */
  crossing: 4,
} as const;

export const scoreSize = 5;

/** Judges outlines of the families of one task, fast: what a search asks for thousands of times. */
export interface ChannelScorer {
  readonly families: readonly OutlineFamily[];
  /** Writes the score of one parameter vector of family number `family`. Outlines that violate a constraint are never solved. */
  score(family: number, values: ArrayLike<number>, out: Float64Array): void;
}

/** Nodes of the first look, which measures. */
const firstCount = 64;
/** Nodes of the search at most: the outlines that it reports are evaluated again with as many as they need, and twice that. */
const mostNodes = 160;
/** Residual of the edge equation that is enough to rank outlines. */
const rankingTolerance = 1e-7;

export function createChannelScorer(task: ChannelTask): ChannelScorer {
  const families = taskFamilies(task);
  const stress = createStressModel(task.model, task.loads, task.cases, rankingTolerance);
  const border = channelBorder(task.joint);
  const { wall, edgeRadius, largest } = task.channel;
  // A wall is missed on the scale of the filler: its largest inscribed circle has a quarter of the bend radius.
  const depth = task.joint.kind === 'tee' ? task.joint.bendRadius / 4 : 1;
  const measure = createOutlineMeasure();
  const inner: InnerPoint = { x: 0, y: 0 };
  const buffers = new Map<number, CurveNodes>();
  const nodesOf = (count: number): CurveNodes => {
    let nodes = buffers.get(count);
    if (nodes === undefined) {
      nodes = createCurveNodes(count);
      buffers.set(count, nodes);
    }
    return nodes;
  };

  /** Measures the outline into the score; whether all constraints are met. */
  const admissible = (nodes: CurveNodes, out: Float64Array): boolean => {
    measureOutline(nodes, border, measure);
    out[scoreAt.area] = measure.simple ? measure.area : 0;
    out[scoreAt.peak] = 0;
    out[scoreAt.crossing] = measure.simple ? 0 : 1;
    if (largest !== undefined) {
      out[scoreAt.room] = Math.max(measure.width / largest.width, measure.height / largest.height) - 1;
      if (Number.isFinite(measure.wall))
        out[scoreAt.room] = Math.max(out[scoreAt.room]!, (wall - measure.wall) / depth);
    } else out[scoreAt.room] = (wall - measure.wall) / depth;
    out[scoreAt.edgeRadius] = edgeRadius > 0 ? 1 - measure.edgeRadius / edgeRadius : 0;
    return out[scoreAt.room]! <= 0 && out[scoreAt.edgeRadius]! <= 0 && measure.simple;
  };

  return {
    families,
    score(family, values, out) {
      const outline = families[family]!;
      let nodes = nodesOf(firstCount);
      outline.place(values, nodes);
      if (!admissible(nodes, out)) return;
      const count = Math.min(nodesNeeded(nodes), mostNodes);
      if (count !== firstCount) {
        nodes = nodesOf(count);
        outline.place(values, nodes);
        // Between coarse nodes a tip can be sharper than it looked.
        if (count > firstCount && !admissible(nodes, out)) return;
      }
      innerPoint(nodes, measure, inner);
      out[scoreAt.peak] = stress.evaluate(nodes, outline.mirror && stress.symmetric, inner, false).worst;
    },
  };
}
