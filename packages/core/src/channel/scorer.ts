import { type ConductanceSolver, createConductance } from '../flow/index.js';
import { hostOf, modelBorder } from '../host/index.js';
import {
  type Border,
  type CurveNodes,
  createCurveNodes,
  createOutlineMeasure,
  measureOutline,
  nodesNeeded,
  type OutlineFamily,
} from '../outline/index.js';
import { createStressModel, type EdgeMemory, type SolvedEdge, type StressDetail } from '../stress/index.js';
import { createChannelJudge } from './judge.js';
import { type ChannelTask, channelBorder, contourSlack, taskFamilies, tradesStrength } from './task.js';

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
  /** Limits on strength: see `createChannelJudge`. `unjudged` where another constraint is violated, 0 where nothing is asked. */
  strength: 5,
  /** What the task's objective makes large: area, mm2, or conductance, mm4; 0 where the outline crosses itself. */
  size: 6,
  /**
   * What it keeps small: the peak, MPa, or one over load factor or strength retained; 0 and NaN as the peak, never
   * infinite: where the joint fails in the cure alone, 1000, and `strength` is violated.
   */
  cost: 7,
} as const;

export const scoreSize = 8;

/** As bad as a judged outline gets: an outline that cannot be judged must not look better than one that can. */
const unjudged = 2;

/** Judges outlines of the families of one task, fast: what a search asks for thousands of times. */
export interface ChannelScorer {
  readonly families: readonly OutlineFamily[];
  /** Writes the score of one parameter vector of family number `family`. Outlines that violate a constraint are never solved. */
  score(family: number, values: ArrayLike<number>, out: Float64Array): void;
  /** Of a profile of an outline of family `family` at `count` nodes: values between functions and geometry, each met at 0 and below. */
  profileLimits(family: number, count: number): number;
  /** Length of a profile of an outline of family `family` at `count` nodes. */
  profileSize(family: number, count: number): number;
  /**
   * Writes the score and after it, smooth in the parameters, what it is made of: functions whose largest is the cost (hoop stress at
   * and half way between the nodes and its peak, case by case, MPa; for a cost of strength, those of the judge), then at four times as many nodes (a descent finds every gap between them) the
   * missing wall and the excess curvature, normalised as the constraints are. `count` nodes, of which a mirror-symmetric
   * family gives the right half. NaN where the outline cannot be solved. `memory` as in `StressModel.evaluate`.
   */
  profile(family: number, values: ArrayLike<number>, count: number, out: Float64Array, memory?: EdgeMemory): void;
}

/** Nodes of the first look, which measures. */
const firstCount = 64;
/** Nodes of the search at most: the outlines that it reports are evaluated again with as many as they need, and twice that. */
const mostNodes = 160;
/** Nodes for wall and curvature of a profile to one for stress. */
export const profileGeometry = 4;
/** Residual of the edge equation that is enough to rank outlines. */
const rankingTolerance = 1e-7;

export function createChannelScorer(task: ChannelTask): ChannelScorer {
  const judge = createChannelJudge(task);
  const families = taskFamilies(task);
  const stress = createStressModel(task.model, task.loads, task.cases, rankingTolerance);
  const border = channelBorder(task.joint);
  const { wall, edgeRadius, largest } = task.channel;
  const widest = largest?.width ?? Number.POSITIVE_INFINITY;
  const highest = largest?.height ?? Number.POSITIVE_INFINITY;
  const depth = hostOf(task.joint).lengthScale;
  const contour = modelBorder(task.model);
  const measure = createOutlineMeasure();
  const buffers = new Map<number, CurveNodes>();
  const nodesOf = (count: number): CurveNodes => {
    let nodes = buffers.get(count);
    if (nodes === undefined) {
      nodes = createCurveNodes(count);
      buffers.set(count, nodes);
    }
    return nodes;
  };
  const trades = tradesStrength(task);
  const flows = task.objective.size === 'conductance';
  const conductances = new Map<number, ConductanceSolver>();
  const conductanceOf = (nodes: CurveNodes): number => {
    let solver = conductances.get(nodes.count);
    if (solver === undefined) {
      solver = createConductance(nodes.count);
      conductances.set(nodes.count, solver);
    }
    return solver(nodes).conductance;
  };
  /**
   * Of an outline that was measured. Too few nodes for a wild one could give any flow: no duct has more
   * than a circle of its area (Pólya, Quart. Appl. Math. 6 (1948) 267-277).
   */
  const writeSize = (nodes: CurveNodes, out: Float64Array): void => {
    const { area, simple } = measure;
    if (!simple) out[scoreAt.size] = 0;
    else out[scoreAt.size] = flows ? Math.min(area ** 2 / (8 * Math.PI), Math.max(0, conductanceOf(nodes))) : area;
  };
  const writeCost = (peak: number, out: Float64Array): void => {
    out[scoreAt.peak] = peak;
    out[scoreAt.cost] = trades ? judge!.cost : peak;
  };

  /** Measures the outline into the score; whether all constraints are met. */
  const admissible = (nodes: CurveNodes, out: Float64Array): boolean => {
    measureOutline(nodes, border, measure);
    out[scoreAt.area] = measure.simple ? measure.area : 0;
    out[scoreAt.peak] = 0;
    out[scoreAt.cost] = 0;
    out[scoreAt.crossing] = measure.simple ? 0 : 1;
    out[scoreAt.room] = Math.max(
      (wall - measure.wall) / depth,
      measure.width / widest - 1,
      measure.height / highest - 1,
    );
    out[scoreAt.strength] = judge === undefined ? 0 : unjudged;
    out[scoreAt.edgeRadius] = edgeRadius > 0 ? 1 - measure.edgeRadius / edgeRadius : 0;
    return out[scoreAt.room]! <= 0 && out[scoreAt.edgeRadius]! <= 0 && measure.simple;
  };

  const solve = (
    outline: OutlineFamily,
    nodes: CurveNodes,
    detail: StressDetail,
    out: Float64Array,
    memory?: EdgeMemory,
  ) => {
    const mirror = outline.mirror && stress.symmetric;
    const result = stress.evaluate(nodes, mirror, detail, memory);
    if (judge !== undefined) {
      judge.judge(result);
      out[scoreAt.strength] = judge.violation;
    }
    return result;
  };
  const nodesSeen = (family: number, count: number) => (families[family]!.mirror ? count / 2 : count);
  const nodesJudged = (family: number, count: number) => (stress.symmetric ? nodesSeen(family, count) : count);
  const functionCount = (family: number, count: number) =>
    trades ? judge!.functionCount(nodesJudged(family, count)) : task.cases.length * (2 * nodesSeen(family, count) + 1);
  const limitCount = (family: number, count: number) => judge?.limitCount(nodesJudged(family, count)) ?? 0;

  return {
    families,
    profileLimits: limitCount,
    profileSize: (family, count) =>
      scoreSize +
      functionCount(family, count) +
      limitCount(family, count) +
      2 * profileGeometry * nodesSeen(family, count),
    profile(family, values, count, out, memory) {
      const outline = families[family]!;
      const nodes = nodesOf(count);
      const between = nodesOf(profileGeometry * count);
      outline.place(values, nodes);
      outline.place(values, between);
      const fine = admissible(between, out);
      writeSize(nodes, out);
      if (!measure.simple || leastDistance(nodes, contour) < -contourSlack) {
        out.fill(Number.NaN, scoreSize);
        return;
      }
      const result = solve(outline, nodes, trades ? 'cases' : 'halfway', out, memory);
      if (fine) writeCost(result.worst, out);
      const seen = nodesSeen(family, count);
      if (trades) judge!.writeFunctions(out, scoreSize);
      else writeHoop(result, seen, out);
      const limitsAt = scoreSize + functionCount(family, count);
      judge?.writeLimits(out, limitsAt);
      const at = limitsAt + limitCount(family, count);
      const { x, y, dx, dy, ddx, ddy } = between;
      const middleX = outline.mirror ? 0 : measure.centroidX;
      const middleY = measure.centroidY;
      for (let j = 0; j < profileGeometry * seen; j++) {
        const speed2 = dx[j]! ** 2 + dy[j]! ** 2;
        const curvature = (dx[j]! * ddy[j]! - dy[j]! * ddx[j]!) / (speed2 * Math.sqrt(speed2));
        out[at + j] = Math.max(
          (wall - border.distance(x[j]!, y[j]!)) / depth,
          (2 * Math.abs(x[j]! - middleX)) / widest - 1,
          (2 * Math.abs(y[j]! - middleY)) / highest - 1,
        );
        out[at + profileGeometry * seen + j] = Math.abs(curvature) * edgeRadius - 1;
      }
    },
    score(family, values, out) {
      const outline = families[family]!;
      let nodes = nodesOf(firstCount);
      outline.place(values, nodes);
      let fine = admissible(nodes, out);
      const count = fine ? Math.min(nodesNeeded(nodes, outline.fewestNodes), mostNodes) : firstCount;
      if (count !== firstCount) {
        nodes = nodesOf(count);
        outline.place(values, nodes);
        // Between coarse nodes a tip can be sharper than it looked.
        if (count > firstCount) fine = admissible(nodes, out);
      }
      writeSize(nodes, out);
      if (fine) writeCost(solve(outline, nodes, 'cases', out).worst, out);
    },
  };
}

/** Of a profile: hoop stress at and half way between the nodes, and its peak, case by case. */
function writeHoop({ cases, caseHoop, caseHalfway }: SolvedEdge, seen: number, out: Float64Array): void {
  let at = scoreSize;
  for (let c = 0; c < cases.length; c++) {
    for (let j = 0; j < seen; j++) {
      out[at++] = caseHoop[c]![j]!;
      out[at++] = caseHalfway[c]![j]!;
    }
    out[at++] = cases[c]!.peak;
  }
}

function leastDistance({ count, x, y }: CurveNodes, border: Border): number {
  let least = Number.POSITIVE_INFINITY;
  for (let j = 0; j < count; j++) least = Math.min(least, border.distance(x[j]!, y[j]!));
  return least;
}
