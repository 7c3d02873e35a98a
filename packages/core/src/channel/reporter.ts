import { type HoopExtremes, halfSize, polynomialsOf } from '../edge/index.js';
import { InputError, UnmetError } from '../errors.js';
import { createConductance, type HealingAgent } from '../flow/index.js';
import { finerModel, hostOf, type LoadName, leftBeyond, lowerModel, modelBorder } from '../host/index.js';
import {
  byCount,
  type Curve,
  type CurveNodes,
  createCurveNodes,
  createOutlineMeasure,
  curveNodesNeeded,
  hasMiddle,
  measureOutline,
  mirrorLines,
  type OutlineMeasure,
  type SideBySide,
} from '../outline/index.js';
import type { ChannelDesign, EdgeExtremes, RepairReport, StrengthReport, StrengthSummary } from '../result/index.js';
import { copyEdge, createEdgeMemory, createStressModel, type SolvedEdge, type StressModel } from '../stress/index.js';
import { followOutline, pocketHeight } from './follow.js';
import { onTwiceTheNodes } from './foretell.js';
import { createRepair, type JudgeRepair } from './repair.js';
import { createStrengthReporter, type StrengthReporter, type StrengthStarts } from './strength-report.js';
import { borderOfAll, type ChannelTask, channelBorder, contourSlack, distanceToNeighbour, sideBySide } from './task.js';

/** An outline with the hoop stress at its nodes and, for who asks, what it leaves of the joint. */
export interface EvaluatedChannel {
  /** Its own: no later evaluation writes into it. */
  readonly edge: SolvedEdge;
  readonly design: ChannelDesign;
  /** Hoop stress at the nodes, MPa, per load and per case. */
  readonly loadHoop: Readonly<Record<LoadName, Float64Array>>;
  readonly caseHoop: Readonly<Record<string, Float64Array>>;
  /** Strength of the whole joint, in brief and case by case; `undefined` on a plate, of which the edge is all that can fail. */
  readonly strengthSummary: () => StrengthSummary | undefined;
  /** The summary, and where each case fails first: a third of the work of `strength`. */
  readonly strengthStarts: () => StrengthStarts | undefined;
  readonly strength: () => StrengthReport | undefined;
  /** What repair by each agent gives back where the joint fails first; `undefined` on a plate, and where nothing fails. */
  readonly repair: (agents: readonly HealingAgent[]) => RepairReport | undefined;
}

type ReportedTask = Omit<ChannelTask, 'objective'>;

/** How an outline is evaluated. */
export interface ReporterOptions {
  /**
   * For an outline that is being dragged: solved once, from the one before and to a relative residual of 1e-7, in half of the time. The figures are those of the whole evaluation to six digits,
   * unless that one takes more nodes yet or finer fields; `change`, which tells, is NaN here. No figure for a report.
   */
  readonly draft?: boolean;
}

/** Evaluates outlines one by one; throws as `createChannelReporter` says. */
export type ChannelReporter = (outline: Curve, options?: ReporterOptions) => EvaluatedChannel;

/** Change of a peak, as a share of the largest hoop stress, below which twice the nodes are enough, and the most that are taken. */
const enoughNodes = 0.005;
const mostNodes = 1024;

/**
 * Evaluates one outline for a report: with the nodes that it needs and with twice as many, and twice those as long as that changes a
 * peak; the values are the latter's. Where the model has finer fields, they are those of a last solution with these, which is nearer to the mesh (95 of 100 peaks at the
 * limits of random joints within 0.3 %, else 0.6 %), and what they change tells the error that is left.
 *
 * Throws InputError for an outline that crosses itself or leaves the filler, and UnmetError for one that comes nearer to the
 * laminate than the task's wall and edge radius allow, where the reduced model does not hold.
 */
export function createChannelReporter(task: Omit<ChannelTask, 'objective'>): ChannelReporter {
  if (task.model.heights === undefined) return createReporter(task);
  return (outline, options) => {
    const pocket = pocketHeight(task.joint, outline)!;
    const evaluated = createReporter(followOutline(task, outline))(outline, options);
    return { ...evaluated, design: { ...evaluated.design, pocketHeight: pocket } };
  };
}

/** An edge as it is told: solved at `nodes`. */
interface ToldEdge extends Pick<ChannelDesign, 'change' | 'accuracy'> {
  readonly edge: SolvedEdge;
  readonly nodes: CurveNodes;
}

/** Solves an outline at the nodes that it needs, and at twice as many. */
type SolveEdge = (outline: Curve, coarse: CurveNodes, fine: CurveNodes, mirror: boolean) => ToldEdge;

/** Until more nodes change no peak, and with the model's finer fields in the end. */
function createWholeSolution({ model, loads, cases }: ReportedTask, stress: StressModel): SolveEdge {
  const finer = finerModel(model);
  const [judge, below] = [finer, lowerModel(model)].map(
    (other) => other && createStressModel(other, loads, cases, { channels: stress.channels }),
  );
  const degrees = (finer?.basis.degree ?? 0) - model.basis.degree;
  return (outline, coarse, fine, mirror) => {
    let nodes = fine;
    // Twice the nodes and fields of another degree change the solution little.
    const memory = createEdgeMemory();
    const withTwice = () => memory.phi.map((one) => onTwiceTheNodes(one, nodes.count / 2));
    let half = extremesOf(stress.evaluate(coarse, mirror, 'loads', memory));
    memory.phi = withTwice();
    let solved = stress.evaluate(nodes, mirror, 'loads', memory);
    let change = largestDifference(half, extremesOf(solved));
    while (!(change <= enoughNodes) && 2 * nodes.count <= mostNodes) {
      half = extremesOf(solved);
      nodes = createCurveNodes(2 * nodes.count);
      outline.place(nodes);
      memory.phi = withTwice();
      solved = stress.evaluate(nodes, mirror, 'loads', memory);
      change = largestDifference(half, extremesOf(solved));
    }
    // Where nodes are too few, fields of a higher degree tell of the nodes, not of the model.
    const finest = judge?.evaluate(nodes, mirror, 'loads', memory);
    const byDegree = finest && modelDifference(solved, finest);
    const before = below && modelDifference(below.evaluate(nodes, mirror, 'loads', memory), solved);
    const accuracy = byDegree && byDegree * leftBeyond(byDegree, before, degrees);
    const edge = copyEdge(finest && Number.isFinite(finest.worst) ? withLowerMoments(finest, model) : solved);
    return { edge, nodes, change, ...(accuracy === undefined ? {} : { accuracy }) };
  };
}

/** Relative residual that serves an outline which is being dragged. */
const draftTolerance = 1e-7;

/** Once, from the outline before. */
function createDraftSolution({ model, loads, cases }: ReportedTask, channels: SideBySide): SolveEdge {
  const stress = createStressModel(model, loads, cases, { tolerance: draftTolerance, channels });
  const memory = createEdgeMemory();
  let before = { count: 0, mirror: false };
  return (_, __, nodes, mirror) => {
    const { count } = nodes;
    if (count !== before.count || mirror !== before.mirror) memory.phi = [];
    before = { count, mirror };
    return { edge: copyEdge(stress.evaluate(nodes, mirror, 'loads', memory)), nodes, change: Number.NaN };
  };
}

/** Of a task whose pocket does not follow. */
function createReporter(task: ReportedTask): ChannelReporter {
  const group = sideBySide(task.channel);
  const channels = group.number;
  const { row } = task.channel;
  const stress = createStressModel(task.model, task.loads, task.cases, { channels: group });
  const solveWhole = createWholeSolution(task, stress);
  const solveOnce = createDraftSolution(task, group);
  const border = channelBorder(task);
  const contour = borderOfAll(modelBorder(task.model), group);
  const measure = createOutlineMeasure();
  const flowOf = byCount(createConductance);
  let reporter: StrengthReporter | undefined;
  let repair: JudgeRepair | undefined;
  const strengthOf = () => {
    if (!hostOf(task.joint).judgesSection) return undefined;
    reporter ??= createStrengthReporter(task);
    return reporter;
  };

  return (outline, { draft = false } = {}) => {
    const count = curveNodesNeeded(outline, mirrorLines(group));
    const coarse = createCurveNodes(count);
    const fine = createCurveNodes(2 * count);
    outline.place(coarse);
    outline.place(fine);
    measureOutline(fine, border, measure);
    refuseFaulty(outline, fine, measure, group);
    measureOutline(fine, contour, measure);
    const inside = measure.wall;
    measureOutline(fine, border, measure);
    if (inside < -contourSlack)
      throw new UnmetError(
        `the outline leaves the control contour by ${(-inside).toFixed(3)} mm (wall ${measure.wall.toFixed(3)} mm, least edge radius ${measure.edgeRadius.toFixed(3)} mm): ` +
          'the stress model does not hold there; lower channel.wall and channel.edgeRadius in the brief to the values that this outline has',
      );
    // Flow is smoother than stress: the coarse nodes give it to 3e-5 or better, for a tenth of the time or less.
    const { conductance } = flowOf(count)(coarse);
    const mirror = outline.mirror && stress.symmetric && channels === 1;
    const { edge, nodes, change, accuracy } = (draft ? solveOnce : solveWhole)(outline, coarse, fine, mirror);
    if (!Number.isFinite(edge.worst)) throw new UnmetError('the edge equation has no solution for this outline');
    return {
      edge,
      design: {
        area: channels * measure.area,
        perimeter: channels * measure.perimeter,
        conductance: channels * conductance,
        width: measure.width,
        height: measure.height,
        wall: measure.wall,
        minEdgeRadius: measure.edgeRadius,
        ...groupFigures(group, nodes, measure),
        ...(row === undefined ? {} : { row: inRow(row.pitch, nodes, measure.area, conductance) }),
        peak: edge.worst,
        worstCase: stress.cases[edge.worstCase]!,
        ...named(stress.loads, stress.cases, edge),
        nodes: nodes.count,
        change,
        ...(accuracy === undefined ? {} : { accuracy }),
      },
      loadHoop: Object.fromEntries(stress.loads.map((name, l) => [name, edge.hoop[l]!])),
      caseHoop: Object.fromEntries(stress.cases.map((name, c) => [name, edge.caseHoop[c]!])),
      strengthSummary: () => strengthOf()?.summarise(edge),
      strengthStarts: () => strengthOf()?.starts(edge),
      strength: () => strengthOf()?.report(edge),
      repair: (agents) => {
        repair ??= createRepair(task);
        return repair(edge, agents);
      },
    };
  };
}

/** Refuses an outline that crosses itself, leaves its room or, of several channels, its side. */
function refuseFaulty(outline: Curve, fine: CurveNodes, measure: OutlineMeasure, group: SideBySide): void {
  if (!measure.simple)
    throw new InputError({
      path: 'channel',
      expected: 'a closed outline that does not cross itself',
      received: 'one that does',
      remedy: 'correct the parameters or points',
    });
  if (group.number > 1 && hasMiddle(group) && !outline.mirror)
    throw new InputError({
      path: 'channel',
      expected: 'of an odd number of channels the middle one, mirror-symmetric in x = 0; all others have its outline',
      received: 'an outline that is not',
      remedy: 'move it onto x = 0, or ask for an even number (channels.number)',
    });
  if (!hasMiddle(group) && !fine.x.every((x) => x > 0))
    throw new InputError({
      path: 'channel',
      expected: 'of an even number of channels the one right of x = 0, all of it; the others are mirror images',
      received: 'an outline that reaches to the left of it',
      remedy: 'move it to the right, or ask for one channel (channels.number)',
    });
  if (measure.wall < 0)
    throw new InputError({
      path: 'channel',
      expected: 'an outline inside the filler',
      received: `one that leaves it by ${(-measure.wall).toPrecision(3)} mm`,
      remedy: 'make it smaller or move it',
    });
}

/** What several channels are together. */
function groupFigures(group: SideBySide, nodes: CurveNodes, { centroidX }: OutlineMeasure) {
  const { number, pitch } = group;
  if (number < 2) return {};
  const between = leastBetween(nodes, (x) => distanceToNeighbour(x, group));
  return number === 2 ? { pair: { pitch: 2 * centroidX, between } } : { group: { number, pitch: pitch!, between } };
}

/** Least material between an outline and its mirror image, `distance` off. */
function leastBetween(nodes: CurveNodes, distance: (x: number) => number): number {
  const measure = createOutlineMeasure();
  measureOutline(nodes, { distance }, measure);
  return measure.wall;
}

const metre = 1000;

/** Neighbours are mirror images half a pitch off on both sides. */
function inRow(pitch: number, nodes: CurveNodes, area: number, conductance: number) {
  return {
    pitch,
    between: leastBetween(nodes, (x) => pitch - 2 * Math.abs(x)),
    areaPerMetre: (metre / pitch) * area,
    conductancePerMetre: (metre / pitch) * conductance,
  };
}

/** Peak and least hoop stress under every load and case, one after the other. */
function extremesOf({ loads, cases }: SolvedEdge): Float64Array {
  return Float64Array.from([...loads, ...cases].flatMap(({ peak, least }) => [peak, least]));
}

/** A load that strains the edge by less than this share of the largest one is not looked at by itself. */
const negligible = 1e-6;

/** Of the peaks, as a share of the largest hoop stress under the same load or case; NaN where one was not solved. */
function largestDifference(one: Float64Array, other: Float64Array): number {
  const least = other.reduce((largest, value) => Math.max(largest, Math.abs(value)), Number.MIN_VALUE) * negligible;
  let most = 0;
  for (let i = 0; i < one.length; i += 2) {
    const size = Math.max(Math.abs(other[i]!), Math.abs(other[i + 1]!), least);
    const share = Math.abs(one[i]! - other[i]!) / size;
    if (!(share <= most)) most = share;
  }
  return most;
}

/** How far below the peak, as a share of the largest hoop stress, a stress may become the peak in a better model. */
const nearPeak = 0.1;

/**
 * By how much two models of one edge differ where its peaks are: peaks alone may be equal while all around them differs, and a third model has another
 * again (a tip under cure: 28 and 52 degrees 0.03 % apart, both 1.9 % off; beside the peak they differ by 1 %).
 */
function modelDifference(one: SolvedEdge, finer: SolvedEdge): number {
  const floor = negligible * Math.max(...finer.loads.map(largest), ...finer.cases.map(largest));
  const differences = [
    ...finer.loads.map((extremes, l) => aroundPeak(one.hoop[l]!, finer.hoop[l]!, extremes, floor)),
    ...finer.cases.map((extremes, c) => aroundPeak(one.caseHoop[c]!, finer.caseHoop[c]!, extremes, floor)),
  ];
  return Math.max(...differences, largestDifference(extremesOf(one), extremesOf(finer)));
}

const largest = ({ peak, least }: HoopExtremes): number => Math.max(Math.abs(peak), Math.abs(least));

function aroundPeak(one: Float64Array, finer: Float64Array, extremes: HoopExtremes, floor: number): number {
  const size = Math.max(largest(extremes), floor, Number.MIN_VALUE);
  let most = 0;
  for (let i = 0; i < finer.length; i++)
    if (finer[i]! >= extremes.peak - nearPeak * size) most = Math.max(most, Math.abs(one[i]! - finer[i]!));
  return most / size;
}

/** An edge that finer fields were solved for, with the moments that the model itself knows: stresses elsewhere are told by those. */
function withLowerMoments(edge: SolvedEdge, { basis, finer }: ChannelTask['model']): SolvedEdge {
  const own = halfSize(basis.degree);
  const all = halfSize(finer!.basis.degree);
  // Poles stand behind the polynomials in both, those of the model first.
  const [polynomials, finerPolynomials] = [basis, finer!.basis].map((one) => halfSize(polynomialsOf(one))) as [
    number,
    number,
  ];
  const placeOf = (i: number) => (i < polynomials ? i : i - polynomials + finerPolynomials);
  const moments = edge.moments.map((values) =>
    Float64Array.from(
      { length: (values.length / all) * own },
      (_, i) => values[i < own ? placeOf(i) : placeOf(i - own) + all]!,
    ),
  );
  return { ...edge, moments };
}

function named(loads: readonly LoadName[], cases: readonly string[], edge: SolvedEdge) {
  const copy = ({ peak, peakX, peakY, least }: HoopExtremes): EdgeExtremes => ({ peak, at: [peakX, peakY], least });
  return {
    loads: Object.fromEntries(loads.map((name, l) => [name, copy(edge.loads[l]!)])),
    cases: Object.fromEntries(cases.map((name, c) => [name, copy(edge.cases[c]!)])),
  };
}
