import { judging } from '#judging';
import {
  byCount,
  type CurveNodes,
  createCurveNodes,
  createOutlineMeasure,
  measureOutline,
  mirrorLines,
  nodeStep,
  nodesNeeded,
  type OutlineFamily,
  type OutlineMeasure,
  onRight,
  perCount,
  type SideBySide,
} from '../outline/index.js';
import { createStressModel, type SolvedEdge, type StressModel } from '../stress/index.js';
import { createSurroundings } from './follow.js';
import { type ChannelProfile, createProfile } from './profile.js';
import { createRoomLimits, leastDistance } from './room-limits.js';
import { scoreAt } from './score.js';
import { asksForStrength, type ChannelTask, contourSlack, sideBySide, taskFamilies, tradesStrength } from './task.js';

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
function searchNodes(nodes: CurveNodes, { fewestNodes }: OutlineFamily, channels: SideBySide): number {
  const needed = nodesNeeded(nodes, fewestNodes, mirrorLines(channels));
  return Math.max(Math.min(needed, mostNodes), nodeStep * Math.ceil((leastShare * needed) / nodeStep));
}
/** Residual of the edge equation that is enough to rank outlines. */
const rankingTolerance = 1e-7;

/**
 * A scorer of outlines for one task; builds the models of stress, flow and strength that its objective and limits ask for. Throws InputError where what they ask for comes
 * on demand and is not there yet: see `loadTask`.
 */
export function createChannelScorer(task: ChannelTask): ChannelScorer {
  const judge = asksForStrength(task) ? judging().createStrengthJudge(task) : undefined;
  const families = taskFamilies(task);
  const around = createSurroundings(task);
  const { border, contour } = around;
  const stress = createStressModel(around.model, task.loads, task.cases, {
    tolerance: rankingTolerance,
    channels: sideBySide(task.channel),
  });
  const { edgeRadius } = task.channel;
  const limits = createRoomLimits(task, border, contour);
  const measure = createOutlineMeasure();
  const nodesOf = perCount(createCurveNodes);
  const sizeOf = channelSize(task);
  const trades = tradesStrength(task);
  const { cost } = task.objective;
  const own = typeof cost === 'object' ? cost : undefined;
  const writeCost = (edge: SolvedEdge, out: Float64Array): void => {
    out[scoreAt.peak] = edge.worst;
    out[scoreAt.cost] = trades ? judge!.cost : own !== undefined ? own.of(edge) : edge.worst;
  };

  /** Measures the outline into the score; whether all constraints are met. */
  const admissible = (nodes: CurveNodes, out: Float64Array): boolean => {
    around.take(nodes);
    measureOutline(nodes, border, measure);
    out[scoreAt.area] = measure.simple ? stress.channels.number * measure.area : 0;
    out[scoreAt.peak] = 0;
    out[scoreAt.cost] = 0;
    out[scoreAt.crossing] = measure.simple ? 0 : 1;
    out[scoreAt.room] = limits.worst(nodes, measure);
    out[scoreAt.strength] = judge === undefined ? 0 : unjudged;
    out[scoreAt.edgeRadius] = edgeRadius > 0 ? 1 - measure.edgeRadius / edgeRadius : 0;
    return out[scoreAt.room]! <= 0 && out[scoreAt.edgeRadius]! <= 0 && measure.simple;
  };

  /** `profile`: the one that will be written of it. */
  const solve = (outline: OutlineFamily, nodes: CurveNodes, out: Float64Array, profile?: ChannelProfile) => {
    if (around.fill()) stress.reload();
    const mirror = outline.mirror && stress.symmetric && stress.channels.number === 1;
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
      const ofAll = nodesOfAll(stress, count);
      const judged = ofAll ?? (stress.symmetric ? seen : count);
      const figures = own !== undefined ? 1 : task.cases.length * (2 * (ofAll ?? seen) + 1);
      return createProfile(family, count, {
        seen,
        functions: trades ? judge!.functions.count(judged) : figures,
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
      score[scoreAt.size] = sizeOf(nodes, measure);
      if (!measure.simple || leastDistance(nodes, contour) < -contourSlack) return false;
      const edge = solve(outline, nodes, score, out);
      if (fine) writeCost(edge, score);
      if (own !== undefined) functions[0] = own.of(edge);
      else if (trades) judge!.functions.write(functions);
      else writeHoop(edge, functions);
      judge?.limits.write(strength);
      limits.write(between, outline.mirror ? 0 : measure.centroidX, measure.centroidY, room);
      room[0] = Math.max(room[0]!, limits.offPitch(measure));
      writeSharpness(between, edgeRadius, sharpness);
      return [functions, strength, room, sharpness].every((smooth) => smooth.every(Number.isFinite));
    },
    score(family, values, out) {
      const outline = families[family]!;
      let nodes = nodesOf(firstCount);
      outline.place(values, nodes);
      let fine = admissible(nodes, out);
      const count = fine ? searchNodes(nodes, outline, stress.channels) : firstCount;
      if (count !== firstCount) {
        nodes = nodesOf(count);
        outline.place(values, nodes);
        // Between coarse nodes a tip can be sharper than it looked.
        if (count > firstCount) fine = admissible(nodes, out);
      }
      out[scoreAt.size] = sizeOf(nodes, measure);
      if (fine) writeCost(solve(outline, nodes, out), out);
    },
  };
}

/** Nodes at which the hoop stress of several channels is told, `count` to each; undefined of one. */
const nodesOfAll = ({ symmetric, channels }: StressModel, count: number): number | undefined =>
  channels.number === 1 ? undefined : (symmetric ? onRight(channels) : channels.number) * count;

/**
 * The size that a task asks for, of an outline that was measured: mm2, or mm4 of conductance. Too few nodes for a wild one could give any flow: no
 * duct has more than a circle of its area (Pólya, Quart. Appl. Math. 6 (1948) 267-277).
 */
function channelSize(task: ChannelTask): (nodes: CurveNodes, measure: OutlineMeasure) => number {
  const channels = sideBySide(task.channel).number;
  const conductanceOf = task.objective.size === 'conductance' ? byCount(judging().createConductance) : undefined;
  return (nodes, { area, simple }) => {
    if (!simple) return 0;
    if (conductanceOf === undefined) return channels * area;
    const { conductance } = conductanceOf(nodes.count)(nodes);
    return channels * Math.min(area ** 2 / (8 * Math.PI), Math.max(0, conductance));
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

/** Curvature over the most that is allowed, less one, at every node that `out` has room for. */
function writeSharpness({ dx, dy, ddx, ddy }: CurveNodes, edgeRadius: number, out: Float64Array): void {
  for (let j = 0; j < out.length; j++) {
    const speed2 = dx[j]! ** 2 + dy[j]! ** 2;
    const curvature = (dx[j]! * ddy[j]! - dy[j]! * ddx[j]!) / (speed2 * Math.sqrt(speed2));
    out[j] = Math.abs(curvature) * edgeRadius - 1;
  }
}
