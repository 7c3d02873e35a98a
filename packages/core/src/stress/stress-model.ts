import {
  createEdgesSolver,
  createGroupSolver,
  type EdgeSlopes,
  type EdgeSolving,
  type EdgesSolution,
  type EdgesSolver,
  type ExactSlopes,
  type HoopExtremes,
  hoopRule,
} from '../edge/index.js';
import { isMirrored, type LoadCase, type LoadName, type Loads, type ReducedModel } from '../host/index.js';
import {
  alone,
  byCount,
  type CurveNodes,
  copiesOfAll,
  createCurveNodes,
  createCurveRates,
  hasMiddle,
  movesMirrored,
  type NodeRates,
  onRight,
  type SideBySide,
  writeAll,
  writeCopy,
  writeMirroredRates,
} from '../outline/index.js';
import { type ActingLoad, actingLoads, checkSeveral, fillUndisturbed } from './acting-loads.js';
import { caseFactors } from './case-factors.js';
import { type Acting, type Combination, combineLoads, createCombination, writeCaseRates } from './combination.js';
import { createSolvedEdge, type SolvedEdge } from './solved-edge.js';

/** Rates of the cases' hoop stress for a batch of motions of the nodes, one array per case, one row to a motion. Overwritten by the next call. */
export interface CaseSlopes {
  /** At the nodes solved for: of a mirror-symmetric edge, the first half. Of several channels edge by edge, where both sides differ at the images behind. MPa per unit of the motion */
  readonly hoop: readonly Float64Array[];
  /** The same half way to the next node. */
  readonly halfway: readonly Float64Array[];
  /** The same and more, load by load. */
  readonly loads: EdgeSlopes;
  readonly motions: NodeRates;
  readonly howMany: number;
}

/** What is computed beside the cases' extremes: nothing, the loads' extremes, or the cases' hoop stress half way between the nodes. */
export type StressDetail = 'cases' | 'loads' | 'halfway';

/** What the solution of one outline leaves for the next, like one. Of one model and one kind of outline (nodes, mirror). */
export interface EdgeMemory {
  /** Boundary values, one array per load; none before the first solution. */
  phi: Float64Array[];
}

/** An empty memory, for one outline that changes little by little. */
export const createEdgeMemory = (): EdgeMemory => ({ phi: [] });

/** Fast model: outline in, edge stress out, for the loads and cases of one brief. */
export interface StressModel {
  readonly loads: readonly LoadName[];
  readonly cases: readonly string[];
  /**
   * Solves an outline given at nodes (mm). `mirror`: outline and all loads are symmetric in x = 0 (refused by an error if a load is not).
   * `detail` says what is worth its time, 'loads' where left out.
   * `memory` makes outlines that follow each other in small steps quicker; the solution depends on it within the tolerance.
   */
  evaluate(nodes: CurveNodes, mirror: boolean, detail?: StressDetail, memory?: EdgeMemory): SolvedEdge;
  /**
   * Solves all channels given one by one, with as many nodes each and in any order: nothing need be symmetric. A matrix of four times the entries that the copies of one outline
   * have, for a pair; no slopes.
   */
  evaluateEach(outlines: readonly CurveNodes[], detail?: StressDetail): SolvedEdge;
  /**
   * Exact slopes on an edge as `evaluate` has just left it, for the first `howMany` motions of its nodes (mm per unit of the motion). A load's offset has no
   * rate: it does not depend on the outline. Buffers grow with the largest batch; else nothing is allocated. Throws where the model was made without `exactSlopes`.
   */
  slopes(edge: SolvedEdge, motions: NodeRates, howMany: number): CaseSlopes;
  /**
   * Writes the extremes under any other combination of the loads, a factor each, on an edge as `evaluate` or `evaluateEach` has just left it: no solve.
   */
  combine(edge: SolvedEdge, factors: ArrayLike<number>, out: HoopExtremes): void;
  /** Takes the numbers of the reduced model anew, which whoever owns it has changed. Allocates nothing. */
  reload(): void;
  /** All loads are symmetric in x = 0, so that mirror-symmetric outlines can be solved as such. */
  readonly symmetric: boolean;
  /** The channels that an outline stands for. */
  readonly channels: SideBySide;
}

/** Largest relative residual that is still an answer: far below every other error of the model. */
const largestResidual = 1e-6;

/** How a stress model solves. */
export interface StressOptions {
  /** Relative residual at which the edge equation counts as solved; default 1e-11. */
  readonly tolerance?: number;
  /** Channels that an outline stands for; one where left out. */
  readonly channels?: SideBySide;
  /** `exactSlopes`, for who asks the model for `slopes`. */
  readonly slopes?: ExactSlopes;
}

/**
 * Makes the fast model of `loads` and `cases` on a reduced host. Throws InputError for a load that the host does not know and
 * a case that names a load which is not given; for several channels in a mirror-symmetric host, where a load is neither symmetric nor
 * antisymmetric; where more than two have no pitch.
 */
export function createStressModel(
  model: ReducedModel,
  loads: Loads,
  cases: readonly LoadCase[],
  { tolerance = 1e-11, channels = alone, slopes }: StressOptions = {},
): StressModel {
  const acting = actingLoads(model, loads);
  const several = channels.number > 1;
  /** Solved as their right half; else, in a host without mirror symmetry, each by itself. */
  const folded = several && isMirrored(model);
  if (several) checkSeveral(model, acting, channels);
  /** Which of the edges that are solved together move as the mirror image of the given one. */
  const mirrors = folded
    ? Array.from({ length: onRight(channels) }, (_, k) => movesMirrored(channels, k))
    : copiesOfAll(channels).map(({ copy, isImage }) => movesMirrored(channels, copy) !== isImage);
  const together: Acting = { loads: acting, basis: model.basis };
  const names = acting.map(({ name }) => name);
  const factors = cases.map((one) => caseFactors(one, names));
  const symmetric = acting.every((load) => load.symmetric);
  const workspaces = (solved: Solved, count: number): Workspace =>
    createWorkspace(model, { count, solved, channels, folded }, acting, cases.length, { tolerance, slopes });
  const given = byCount((count) => workspaces('given', count));
  const mirrored = byCount((count) => workspaces('mirrored', count));
  /** By the nodes of all channels, which say what they take. */
  const apart = byCount((all) => workspaces('apart', all / channels.number));
  const workspaceOf = ({ nodes: { count }, mirror, apart: oneByOne, each }: SolvedEdge): Workspace =>
    mirror ? mirrored(count) : oneByOne ? apart(each.length * count) : given(count);

  return {
    loads: names,
    cases: cases.map(({ name }) => name),
    symmetric,
    channels,
    reload() {
      for (const load of acting) fillUndisturbed(model, loads, load);
    },
    evaluate(nodes, mirror, detail = 'loads', memory) {
      if (mirror && several) throw new Error('several channels are solved together');
      if (mirror && !symmetric) throw new Error('loads are not mirror-symmetric');
      const space = mirror ? mirrored(nodes.count) : given(nodes.count);
      const near = memory !== undefined && memory.phi.length > 0 ? memory.phi : undefined;
      const { given: solved, edge } = space;
      takeNodes(space, 0, nodes);
      if (folded) for (let k = 1; k < solved.length; k++) writeCopy(nodes, channels, k, solved[k]!);
      else if (several) writeAll(nodes, channels, solved);
      const solution = space.solver.solve(solved, acting, near);
      if (memory !== undefined) remember(solution, memory);
      fillEdge(space, solution, together, factors, detail);
      return edge;
    },
    evaluateEach(outlines, detail = 'loads') {
      const { length } = outlines;
      if (length !== channels.number) throw new Error(`${length} outlines for ${channels.number} channels`);
      const { count } = outlines[0]!;
      const space = several ? apart(length * count) : given(count);
      for (let k = 0; k < length; k++) takeNodes(space, k, outlines[k]!);
      fillEdge(space, space.solver.solve(space.given, acting), together, factors, detail);
      return space.edge;
    },
    slopes(edge, motions, howMany) {
      const { nodes, mirror } = edge;
      const space = workspaceOf(edge);
      if (edge.apart) throw new Error('slopes are of the copies of one outline');
      const byLoad = space.solver.slopes(motionsOfAll(space, mirrors, motions, howMany), howMany);
      const half = nodes.count / 2;
      const rows = space.given.map((_, k) => (mirror || space.edge.each[k]!.onAxis ? half : 2 * half));
      const batch = { rows, howMany, bothSides: folded && !symmetric };
      const size = howMany * rows.reduce((a, b) => a + b) * (batch.bothSides ? 2 : 1);
      if (size > (space.caseRates.hoop[0]?.length ?? 0)) space.caseRates = createCaseRates(cases.length, size);
      for (const at of ['hoop', 'halfway'] as const)
        for (let c = 0; c < cases.length; c++)
          writeCaseRates(byLoad[at], together, factors[c]!, batch, space.caseRates[at][c]!);
      return { ...space.caseRates, loads: byLoad, motions, howMany };
    },
    combine(edge, factors, out) {
      combineLoads(edge, together, factors, workspaceOf(edge).ofLoad, out);
    },
  };
}

function takeNodes({ given, edge }: Workspace, k: number, nodes: CurveNodes): void {
  given[k] = nodes;
  edge.each[k]!.nodes = nodes;
  if (k === 0) edge.nodes = nodes;
}

/** Keeps a solution; one that failed leaves nothing. */
function remember({ phi, residual }: EdgesSolution, memory: EdgeMemory): void {
  if (!(residual <= largestResidual)) memory.phi = [];
  else if (memory.phi.length === 0) memory.phi = phi.map((values) => values.slice());
  else for (let l = 0; l < phi.length; l++) memory.phi[l]!.set(phi[l]!);
}

/** Motions of each edge that is solved, from those of the given one. */
function motionsOfAll(
  space: Workspace,
  mirrors: readonly boolean[],
  motions: NodeRates,
  howMany: number,
): readonly NodeRates[] {
  const { count } = space.edge.nodes;
  if (!mirrors.includes(true)) return space.given.map(() => motions);
  if (howMany * count > space.mirrored.x.length) space.mirrored = createCurveRates(howMany, count);
  writeMirroredRates(motions, howMany, count, space.mirrored);
  return space.given.map((_, k) => (mirrors[k]! ? space.mirrored : motions));
}

function createCaseRates(cases: number, size: number): CaseRates {
  const arrays = () => Array.from({ length: cases }, () => new Float64Array(size));
  return { hoop: arrays(), halfway: arrays() };
}

type CaseRates = Pick<CaseSlopes, 'hoop' | 'halfway'>;

interface Workspace {
  readonly solver: EdgesSolver;
  /** Nodes of each edge that is solved, the given one first. */
  readonly given: CurveNodes[];
  /** Grown when slopes are asked for. */
  caseRates: CaseRates;
  mirrored: NodeRates;
  /** One a case, at the nodes, and half way between them as well; they share their slope. */
  readonly combinations: Readonly<Record<'cases' | 'halfway', readonly Combination[]>>;
  /** Of each load alone, where it must be combined to find its extremes. */
  readonly alone: readonly Float64Array[];
  readonly ofLoad: Combination;
  readonly edge: SolvedEdge;
}

/** One outline with its copies, or as mirror-symmetric; or each channel by itself. */
type Solved = 'given' | 'mirrored' | 'apart';

interface WorkspaceKind extends Pick<CurveNodes, 'count'>, Pick<StressModel, 'channels'> {
  readonly solved: Solved;
  /** Copies are solved as their right half. */
  readonly folded: boolean;
}

function createWorkspace(
  model: ReducedModel,
  { count, solved, channels, folded }: WorkspaceKind,
  acting: readonly ActingLoad[],
  cases: number,
  how: EdgeSolving,
): Workspace {
  const loads = acting.length;
  const mirror = solved === 'mirrored';
  const several = solved === 'given' && folded;
  const odd = acting.map(({ symmetric }) => !symmetric);
  const edges = mirror ? 1 : several ? onRight(channels) : channels.number;
  const folds = Array.from({ length: edges }, () => (mirror ? 'half' : 'whole'));
  const solver = several
    ? createGroupSolver(model.basis, count, { edges, onAxis: hasMiddle(channels) }, odd, how)
    : createEdgesSolver(model.basis, count, folds, loads, how);
  const twoSided = several && odd.includes(true);
  const given = Array.from({ length: edges }, () => createCurveNodes(count));
  const edge = createSolvedEdge({
    ...{ mirror, several, apart: solved === 'apart', loads, cases },
    channels: given.map((nodes, k) => {
      const onAxis = several && k === 0 && hasMiddle(channels);
      return { nodes, onAxis, bothSides: twoSided && !onAxis };
    }),
    moments: mirror ? 2 * model.basis.degree : 4 * model.basis.degree,
  });
  const slope = new Float64Array(2 * count);
  const seen = mirror ? count / 2 : count;
  const combined = (...arrays: readonly Float64Array[]) => createCombination(edge.each, slope, seen, arrays);
  return {
    ...{ solver, given, edge, mirrored: createCurveRates(0, count) },
    caseRates: createCaseRates(cases, 0),
    combinations: {
      cases: edge.caseHoop.map((hoop) => combined(hoop)),
      halfway: edge.caseHoop.map((hoop, c) => combined(hoop, edge.caseHalfway[c]!)),
    },
    alone: acting.map((_, l) => Float64Array.from(acting, (_one, k) => (k === l ? 1 : 0))),
    ofLoad: combined(),
  };
}

function fillEdge(
  { combinations, alone, ofLoad, edge }: Workspace,
  solution: EdgesSolution,
  acting: Acting,
  factors: readonly Float64Array[],
  detail: StressDetail,
): void {
  const { loads, basis } = acting;
  const { length } = basis;
  const rule = hoopRule(edge.nodes.count);
  const seen = edge.mirror ? edge.nodes.count / 2 : edge.nodes.count;
  const solved = solution.residual <= largestResidual;
  if (!solved) for (const values of [...solution.phi, ...solution.moments]) values.fill(Number.NaN);
  edge.iterations = solution.iterations;
  for (let k = 0; k < edge.each.length; k++) {
    const { inner } = edge.each[k]!;
    inner.x = solution.inners[k]!.x;
    inner.y = solution.inners[k]!.y;
  }
  edge.inner.x = solution.inners[0]!.x;
  edge.inner.y = solution.inners[0]!.y;
  for (let l = 0; l < loads.length; l++) {
    const { offset } = loads[l]!;
    edge.phi[l]!.set(solution.phi[l]!);
    edge.moments[l]!.set(solution.moments[l]!);
    edge.strains[l] = solved ? solution.strains[l]! : Number.NaN;
    for (let k = 0; k < edge.each.length; k++) {
      const { nodes, phi, slopes, hoop } = edge.each[k]!;
      rule.slope(phi[l]!, slopes[l]!);
      rule.take(nodes, slopes[l]!, length, offset);
      rule.atNodes(hoop[l]!);
    }
    if (detail !== 'loads') continue;
    if (edge.bothSides || edge.each.length > 1) combineLoads(edge, acting, alone[l]!, ofLoad, edge.loads[l]!);
    else rule.extremes(edge.hoop[l]!, edge.loads[l]!, seen);
  }
  const sides = detail === 'halfway' ? combinations.halfway : combinations.cases;
  edge.worst = Number.NEGATIVE_INFINITY;
  for (let c = 0; c < factors.length; c++) {
    const extremes = edge.cases[c]!;
    combineLoads(edge, acting, factors[c]!, sides[c]!, extremes);
    if (!(extremes.peak <= edge.worst)) {
      edge.worst = extremes.peak;
      edge.worstCase = c;
    }
  }
  if (!solved) edge.worst = Number.NaN;
}
