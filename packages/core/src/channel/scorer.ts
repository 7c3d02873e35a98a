import { createConductance } from '../flow/index.js';
import { hostOf } from '../host/index.js';
import {
  type Border,
  byCount,
  type CurveNodes,
  createCurveNodes,
  createOutlineMeasure,
  measureOutline,
  nodeStep,
  nodesNeeded,
  type OutlineFamily,
} from '../outline/index.js';
import { createStressModel, type SolvedEdge } from '../stress/index.js';
import { createSurroundings } from './follow.js';
import { createStrengthJudge } from './judge.js';
import { type ChannelProfile, createProfile } from './profile.js';
import { scoreAt } from './score.js';
import { type ChannelTask, channelRoom, contourSlack, pitchTolerance, taskFamilies, tradesStrength } from './task.js';

/** As bad as a judged outline gets: an outline that cannot be judged must not look better than one that can. */
const unjudged = 2;

/** Judges outlines of the families of one task, fast: what a search asks for thousands of times. */
export interface ChannelScorer {
  readonly families: readonly OutlineFamily[];
  /** Writes the score of one parameter vector of family number `family`. Outlines that violate a constraint are never solved. */
  score(family: number, values: ArrayLike<number>, out: Float64Array): void;
  /** Room for profiles of outlines of family number `family`, solved at `count` nodes. */
  createProfile(family: number, count: number): ChannelProfile;
  /** Writes the profile of one parameter vector; false where the outline cannot be solved: then only the score counts. */
  profile(values: ArrayLike<number>, out: ChannelProfile): boolean;
}

/** Nodes of the first look, which measures. */
const firstCount = 64;
/**
 * Nodes of the search, of those that an outline needs: all of up to `mostNodes`, then this share. With six tenths a score is up to
 * 9 % off what is reported of the outline, with seven 1 %, with eight 0.4 % (insets with tips of 0.004 to 0.02 bend radii).
 */
const mostNodes = 160;
const leastShare = 0.8;
const searchNodes = (needed: number) =>
  Math.max(Math.min(needed, mostNodes), nodeStep * Math.ceil((leastShare * needed) / nodeStep));
/** Residual of the edge equation that is enough to rank outlines. */
const rankingTolerance = 1e-7;

/** A scorer of outlines for one task; builds the models of stress, flow and strength that its objective and limits ask for. */
export function createChannelScorer(task: ChannelTask): ChannelScorer {
  const judge = createStrengthJudge(task);
  const families = taskFamilies(task);
  const around = createSurroundings(task);
  const { border, contour } = around;
  const stress = createStressModel(around.model, task.loads, task.cases, {
    tolerance: rankingTolerance,
    pair: task.channel.pair !== undefined,
  });
  const { wall, edgeRadius, largest, pair } = task.channel;
  const channels = pair === undefined ? 1 : 2;
  /** Two channels lie side by side within the room that the model was made for, not only within what each may take. */
  const farthest = pair === undefined ? Number.POSITIVE_INFINITY : channelRoom(task).xMax;
  const widest = largest?.width ?? Number.POSITIVE_INFINITY;
  const highest = largest?.height ?? Number.POSITIVE_INFINITY;
  const depth = hostOf(task.joint).lengthScale;
  const measure = createOutlineMeasure();
  const nodesOf = byCount(createCurveNodes);
  const conductanceOf = byCount(createConductance);
  const trades = tradesStrength(task);
  const { cost } = task.objective;
  const own = typeof cost === 'object' ? cost : undefined;
  const flows = task.objective.size === 'conductance';
  /**
   * Of an outline that was measured. Too few nodes for a wild one could give any flow: no duct has more
   * than a circle of its area (Pólya, Quart. Appl. Math. 6 (1948) 267-277).
   */
  const writeSize = (nodes: CurveNodes, out: Float64Array): void => {
    const { area, simple } = measure;
    if (!simple) out[scoreAt.size] = 0;
    else if (!flows) out[scoreAt.size] = channels * area;
    else {
      const { conductance } = conductanceOf(nodes.count)(nodes);
      out[scoreAt.size] = channels * Math.min(area ** 2 / (8 * Math.PI), Math.max(0, conductance));
    }
  };
  const writeCost = (edge: SolvedEdge, out: Float64Array): void => {
    out[scoreAt.peak] = edge.worst;
    out[scoreAt.cost] = trades ? judge!.cost : own !== undefined ? own.of(edge) : edge.worst;
  };

  /** By how much the outline that was measured misses the pitch that is asked for, beyond what is allowed, on the scale of a missing wall. */
  const offPitch = (): number => {
    const pitch = pair?.pitch;
    if (pitch === undefined) return Number.NEGATIVE_INFINITY;
    return (Math.abs(2 * measure.centroidX - pitch) - pitchTolerance * pitch) / depth;
  };

  /**
   * By how much the outline leaves the control contour, beyond half of what is allowed (a reporter looks at more nodes), on the scale of a missing
   * wall: a contour that is cut down to the largest channel can be left sideways within wall and width.
   */
  const beyondContour = (nodes: CurveNodes): number =>
    largest === undefined ? Number.NEGATIVE_INFINITY : (-contourSlack / 2 - leastDistance(nodes, contour)) / depth;

  /** Measures the outline into the score; whether all constraints are met. */
  const admissible = (nodes: CurveNodes, out: Float64Array): boolean => {
    around.take(nodes);
    measureOutline(nodes, border, measure);
    out[scoreAt.area] = measure.simple ? channels * measure.area : 0;
    out[scoreAt.peak] = 0;
    out[scoreAt.cost] = 0;
    out[scoreAt.crossing] = measure.simple ? 0 : 1;
    out[scoreAt.room] = Math.max(
      (wall - measure.wall) / depth,
      measure.width / widest - 1,
      measure.height / highest - 1,
      offPitch(),
      pair === undefined ? Number.NEGATIVE_INFINITY : (largestOf(nodes.x) - farthest) / depth,
      beyondContour(nodes),
    );
    out[scoreAt.strength] = judge === undefined ? 0 : unjudged;
    out[scoreAt.edgeRadius] = edgeRadius > 0 ? 1 - measure.edgeRadius / edgeRadius : 0;
    return out[scoreAt.room]! <= 0 && out[scoreAt.edgeRadius]! <= 0 && measure.simple;
  };

  /** `profile`: the one that will be written of it. */
  const solve = (
    outline: OutlineFamily,
    nodes: CurveNodes,
    out: Float64Array,
    profile?: ChannelProfile,
  ): SolvedEdge => {
    if (around.fill()) stress.reload();
    const mirror = outline.mirror && stress.symmetric;
    const detail = profile !== undefined && cost === 'peak' ? 'halfway' : 'cases';
    const edge = stress.evaluate(nodes, mirror, detail, profile?.memory);
    if (judge !== undefined) {
      judge.judge(edge, profile !== undefined);
      out[scoreAt.strength] = judge.violation;
    }
    return edge;
  };

  return {
    families,
    createProfile(family, count) {
      const seen = families[family]!.mirror ? count / 2 : count;
      const sides = pair !== undefined && !stress.symmetric ? 2 : 1;
      const judged = stress.symmetric ? seen : sides * count;
      return createProfile(family, count, {
        seen,
        functions: trades
          ? judge!.functions.count(judged)
          : own !== undefined
            ? 1
            : task.cases.length * (2 * sides * seen + 1),
        strength: judge?.limits.count(judged) ?? 0,
      });
    },
    profile(values, out) {
      const { score, functions, strength, room, edgeRadius: sharpness } = out;
      const outline = families[out.family]!;
      const nodes = nodesOf(out.count);
      const between = nodesOf(out.geometryCount);
      outline.place(values, nodes);
      outline.place(values, between);
      const fine = admissible(between, score);
      writeSize(nodes, score);
      if (!measure.simple || leastDistance(nodes, contour) < -contourSlack) return false;
      const edge = solve(outline, nodes, score, out);
      if (fine) writeCost(edge, score);
      if (own !== undefined) functions[0] = own.of(edge);
      else if (trades) judge!.functions.write(functions);
      else writeHoop(edge, functions);
      judge?.limits.write(strength);
      const { x, y, dx, dy, ddx, ddy } = between;
      const middleX = outline.mirror ? 0 : measure.centroidX;
      const middleY = measure.centroidY;
      for (let j = 0; j < room.length; j++) {
        const speed2 = dx[j]! ** 2 + dy[j]! ** 2;
        const curvature = (dx[j]! * ddy[j]! - dy[j]! * ddx[j]!) / (speed2 * Math.sqrt(speed2));
        room[j] = Math.max(
          (wall - border.distance(x[j]!, y[j]!)) / depth,
          (2 * Math.abs(x[j]! - middleX)) / widest - 1,
          (2 * Math.abs(y[j]! - middleY)) / highest - 1,
          (x[j]! - farthest) / depth,
        );
        sharpness[j] = Math.abs(curvature) * edgeRadius - 1;
      }
      room[0] = Math.max(room[0]!, offPitch());
      return [functions, strength, room, sharpness].every((smooth) => smooth.every(Number.isFinite));
    },
    score(family, values, out) {
      const outline = families[family]!;
      let nodes = nodesOf(firstCount);
      outline.place(values, nodes);
      let fine = admissible(nodes, out);
      const count = fine ? searchNodes(nodesNeeded(nodes, outline.fewestNodes, pair !== undefined)) : firstCount;
      if (count !== firstCount) {
        nodes = nodesOf(count);
        outline.place(values, nodes);
        // Between coarse nodes a tip can be sharper than it looked.
        if (count > firstCount) fine = admissible(nodes, out);
      }
      writeSize(nodes, out);
      if (fine) writeCost(solve(outline, nodes, out), out);
    },
  };
}

/** Hoop stress at and half way between the nodes, of both sides where they differ, and its peak, case by case. */
function writeHoop({ cases, caseHoop, caseHalfway }: SolvedEdge, out: Float64Array): void {
  const seen = (out.length / cases.length - 1) / 2;
  let at = 0;
  for (let c = 0; c < cases.length; c++) {
    for (let j = 0; j < seen; j++) {
      out[at++] = caseHoop[c]![j]!;
      out[at++] = caseHalfway[c]![j]!;
    }
    out[at++] = cases[c]!.peak;
  }
}

function largestOf(values: Float64Array): number {
  let largest = Number.NEGATIVE_INFINITY;
  for (let j = 0; j < values.length; j++) largest = Math.max(largest, values[j]!);
  return largest;
}

function leastDistance({ count, x, y }: CurveNodes, border: Border): number {
  let least = Number.POSITIVE_INFINITY;
  for (let j = 0; j < count; j++) least = Math.min(least, border.distance(x[j]!, y[j]!));
  return least;
}
