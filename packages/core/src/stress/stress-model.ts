import {
  createEdgeSolver,
  createHoopExtremes,
  type EdgeLoad,
  type EdgeSlopes,
  type EdgeSolution,
  type EdgeSolver,
  type HoopExtremes,
  hoopRule,
  type InnerPoint,
} from '../edge/index.js';
import { InputError } from '../errors.js';
import { isMirrored, type LoadCase, type LoadName, type Loads, type ReducedModel } from '../host/index.js';
import { type CurveNodes, createCurveNodes, type NodeRates } from '../outline/index.js';
import { caseFactors } from './case-factors.js';

/** An outline as it was solved, and the stress around its edge. MPa, mm. Overwritten by the next call on the same model. */
export interface SolvedEdge {
  nodes: CurveNodes;
  /** Solved as mirror-symmetric. */
  readonly mirror: boolean;
  /** The point inside that it was solved with: well away from the edge, as its nodes see it. */
  readonly inner: InnerPoint;
  /** One per load of the model's `loads`, at its given size. */
  readonly loads: readonly HoopExtremes[];
  /** One per case. */
  readonly cases: readonly HoopExtremes[];
  /** Hoop stress at the nodes, one array per load. */
  readonly hoop: readonly Float64Array[];
  /** Hoop stress at the nodes, one array per case. */
  readonly caseHoop: readonly Float64Array[];
  /** The same half way to the next node; filled only for the detail 'halfway'. */
  readonly caseHalfway: readonly Float64Array[];
  /** Derivatives of phi along the curve parameter at the nodes, over the basis's length, one array per load. MPa */
  readonly slopes: readonly Float64Array[];
  /** Moments that the host sees, one array per load, for the stresses elsewhere. */
  readonly moments: readonly Float64Array[];
  /** Peak of the worst case, MPa; NaN, as everything above, where the edge equation could not be solved. */
  worst: number;
  /** Index of the worst case. */
  worstCase: number;
  iterations: number;
}

/** Rates of the cases' hoop stress for a batch of motions of the nodes, one array per case, one row to a motion. Overwritten by the next call. */
export interface CaseSlopes {
  /** At the nodes solved for: of a mirror-symmetric edge, the first half. MPa per unit of the motion */
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
   * Exact slopes on an edge as `evaluate` has just left it, for the first `howMany` motions of its nodes (mm per unit of the motion). A load's offset has no
   * rate: it does not depend on the outline. Buffers grow with the largest batch; else nothing is allocated.
   */
  slopes(edge: SolvedEdge, motions: NodeRates, howMany: number): CaseSlopes;
  /**
   * Writes the extremes under any other combination of the loads, a factor each, on an edge as `evaluate` has just left it: no solve.
   */
  combine(edge: SolvedEdge, factors: ArrayLike<number>, out: HoopExtremes): void;
  /** All loads are symmetric in x = 0, so that mirror-symmetric outlines can be solved as such. */
  readonly symmetric: boolean;
}

/** Largest relative residual that is still an answer: far below every other error of the model. */
const largestResidual = 1e-6;

/**
 * Makes the fast model of `loads` and `cases` on a reduced host. Throws InputError for a load that the host does not know and
 * a case that names a load which is not given. `tolerance` is the relative residual at which the edge equation counts as solved.
 */
export function createStressModel(
  model: ReducedModel,
  loads: Loads,
  cases: readonly LoadCase[],
  tolerance = 1e-11,
): StressModel {
  const acting = actingLoads(model, loads);
  const together: Acting = { loads: acting, length: model.basis.length };
  const names = acting.map(({ name }) => name);
  const factors = cases.map((one) => caseFactors(one, names));
  const symmetric = acting.every((load) => load.symmetric);
  const solvers = new Map<string, Workspace>();
  /** What combinations are worked out in, by node count. */
  const combined = new Map<number, Combination>();

  const workspace = (count: number, mirror: boolean): Workspace => {
    const key = `${count} ${mirror}`;
    let found = solvers.get(key);
    if (found === undefined) {
      found = createWorkspace(model, { count, mirror }, acting.length, cases.length, tolerance);
      solvers.set(key, found);
    }
    return found;
  };

  return {
    loads: names,
    cases: cases.map(({ name }) => name),
    symmetric,
    evaluate(nodes, mirror, detail = 'loads', memory) {
      if (mirror && !symmetric) throw new Error('a mirror-symmetric solution needs mirror-symmetric loads');
      const space = workspace(nodes.count, mirror);
      const near = memory !== undefined && memory.phi.length > 0 ? memory.phi : undefined;
      const solution = space.solver.solve(nodes, acting, near);
      if (memory !== undefined) remember(solution, memory);
      space.edge.nodes = nodes;
      space.edge.inner.x = solution.inner.x;
      space.edge.inner.y = solution.inner.y;
      fillEdge(space, solution, together, factors, detail);
      return space.edge;
    },
    slopes({ nodes, mirror }, motions, howMany) {
      const space = workspace(nodes.count, mirror);
      const byLoad = space.solver.slopes(motions, howMany);
      const size = howMany * (mirror ? nodes.count / 2 : nodes.count);
      if (size > (space.caseRates.hoop[0]?.length ?? 0)) space.caseRates = createCaseRates(cases.length, size);
      for (const at of ['hoop', 'halfway'] as const)
        for (let c = 0; c < cases.length; c++) writeWeighted(byLoad[at], factors[c]!, size, space.caseRates[at][c]!);
      return { ...space.caseRates, loads: byLoad, motions, howMany };
    },
    combine(edge, factors, out) {
      const { count } = edge.nodes;
      let into = combined.get(count);
      if (into === undefined) {
        into = { slope: new Float64Array(2 * count), hoop: new Float64Array(count), seen: count };
        combined.set(count, into);
      }
      combineLoads(edge, together, factors, into, out);
    },
  };
}

/** Keeps a solution; one that failed leaves nothing. */
function remember({ phi, residual }: EdgeSolution, memory: EdgeMemory): void {
  if (!(residual <= largestResidual)) memory.phi = [];
  else if (memory.phi.length === 0) memory.phi = phi.map((values) => values.slice());
  else for (let l = 0; l < phi.length; l++) memory.phi[l]!.set(phi[l]!);
}

/** A load of the brief at its given size, in terms of the host's unit loads. */
export interface ActingLoad extends EdgeLoad {
  readonly name: LoadName;
  /** Index of the host's response; -1: it does not answer. */
  readonly responseIndex: number;
  readonly offset: number;
  /** Undisturbed stress at the model's places `[symmetric | antisymmetric]`, `3 places` each, MPa. */
  readonly atPlaces: Float64Array;
  readonly symmetric: boolean;
}

/** Unit loads of the host, at the sizes given, in the host's order. Throws InputError for a load that the host does not know. */
export function actingLoads(model: ReducedModel, loads: Loads): ActingLoad[] {
  const known = [...new Set(model.loads.map(({ name }) => name))];
  for (const name of Object.keys(loads))
    if (!known.includes(name))
      throw new InputError({
        path: `loads.${name}`,
        expected: `a load that this host takes: ${known.join(', ')}`,
        received: name,
        remedy: 'leave it out or change the support',
      });
  return known
    .filter((name) => Object.hasOwn(loads, name))
    .map((name) => {
      const undisturbed = new Float64Array(4 * model.basis.degree);
      const places = 3 * model.places.points.length;
      const atPlaces = new Float64Array(2 * places);
      let offset = 0;
      let response = -1;
      // A host without mirror symmetry answers no load symmetrically.
      let symmetric = isMirrored(model);
      for (const unit of model.loads) {
        if (unit.name !== name) continue;
        const size = loads[name]![unit.size] ?? 0;
        for (let i = 0; i < undisturbed.length; i++) undisturbed[i]! += size * unit.undisturbed[i]!;
        const from = unit.symmetric ? 0 : places;
        for (let i = 0; i < places; i++) atPlaces[from + i]! += size * unit.atPlaces[i]!;
        offset += size * unit.offset;
        response = unit.response;
        if (size !== 0 && !unit.symmetric) symmetric = false;
      }
      return {
        name,
        undisturbed,
        atPlaces,
        offset,
        symmetric,
        response: response < 0 ? undefined : model.responses[response]!,
        responseIndex: response,
      };
    });
}

/** What a combination of loads is worked out in, and over how many of the nodes its extremes are looked for. */
interface Combination {
  readonly slope: Float64Array;
  readonly hoop: Float64Array;
  readonly seen: number;
}

/** Superposes the loads into a combination and finds the extremes of their sum. Returns its offset. */
function combineLoads(
  { slopes, nodes }: Pick<SolvedEdge, 'slopes' | 'nodes'>,
  { loads, length }: Acting,
  factors: ArrayLike<number>,
  { slope, hoop, seen }: Combination,
  out: HoopExtremes,
): number {
  slope.fill(0);
  let offset = 0;
  for (let l = 0; l < loads.length; l++) {
    const weight = factors[l]!;
    if (weight === 0) continue;
    const part = slopes[l]!;
    for (let i = 0; i < slope.length; i++) slope[i]! += weight * part[i]!;
    offset += weight * loads[l]!.offset;
  }
  const rule = hoopRule(nodes.count);
  rule.atNodes(nodes, slope, length, offset, hoop);
  rule.extremes(nodes, slope, length, offset, hoop, out, seen);
  return offset;
}

/** Writes the sum of the loads' values by their weights. */
function writeWeighted(
  loads: readonly Float64Array[],
  weights: ArrayLike<number>,
  size: number,
  out: Float64Array,
): void {
  out.fill(0);
  for (let l = 0; l < loads.length; l++) {
    const weight = weights[l]!;
    const part = loads[l]!;
    if (weight !== 0) for (let i = 0; i < size; i++) out[i]! += weight * part[i]!;
  }
}

function createCaseRates(cases: number, size: number): CaseRates {
  const arrays = () => Array.from({ length: cases }, () => new Float64Array(size));
  return { hoop: arrays(), halfway: arrays() };
}

/** The loads that act, and the length of the basis. */
interface Acting {
  readonly loads: readonly ActingLoad[];
  readonly length: number;
}

type CaseRates = Pick<CaseSlopes, 'hoop' | 'halfway'>;

interface Workspace {
  readonly solver: EdgeSolver;
  /** Grown when slopes are asked for. */
  caseRates: CaseRates;
  /** One a case; they share their slope. */
  readonly combinations: readonly Combination[];
  readonly edge: SolvedEdge;
}

function createWorkspace(
  model: ReducedModel,
  { count, mirror }: Pick<CurveNodes, 'count'> & Pick<SolvedEdge, 'mirror'>,
  loads: number,
  cases: number,
  tolerance: number,
): Workspace {
  const solver = createEdgeSolver(model.basis, count, mirror, loads, tolerance);
  const arrays = (howMany: number, size: number) => Array.from({ length: howMany }, () => new Float64Array(size));
  const extremes = (howMany: number) => Array.from({ length: howMany }, createHoopExtremes);
  const slope = new Float64Array(2 * count);
  const caseHoop = arrays(cases, count);
  return {
    solver,
    caseRates: createCaseRates(cases, 0),
    combinations: caseHoop.map((hoop) => ({ slope, hoop, seen: mirror ? count / 2 : count })),
    edge: {
      nodes: createCurveNodes(count),
      mirror,
      inner: { x: 0, y: 0 },
      loads: extremes(loads),
      cases: extremes(cases),
      hoop: arrays(loads, count),
      caseHoop,
      caseHalfway: arrays(cases, count),
      slopes: arrays(loads, 2 * count),
      moments: arrays(loads, mirror ? 2 * model.basis.degree : 4 * model.basis.degree),
      worst: Number.NaN,
      worstCase: 0,
      iterations: 0,
    },
  };
}

function fillEdge(
  { combinations, edge }: Workspace,
  solution: EdgeSolution,
  acting: Acting,
  factors: readonly Float64Array[],
  detail: StressDetail,
): void {
  const { loads, length } = acting;
  const { nodes, slopes } = edge;
  const rule = hoopRule(nodes.count);
  const seen = edge.mirror ? nodes.count / 2 : nodes.count;
  const solved = solution.residual <= largestResidual;
  if (!solved) for (const values of [...solution.phi, ...solution.moments]) values.fill(Number.NaN);
  edge.iterations = solution.iterations;
  for (let l = 0; l < loads.length; l++) {
    const { offset } = loads[l]!;
    rule.slope(solution.phi[l]!, slopes[l]!);
    rule.atNodes(nodes, slopes[l]!, length, offset, edge.hoop[l]!);
    edge.moments[l]!.set(solution.moments[l]!);
    if (detail === 'loads') rule.extremes(nodes, slopes[l]!, length, offset, edge.hoop[l]!, edge.loads[l]!, seen);
  }
  edge.worst = Number.NEGATIVE_INFINITY;
  for (let c = 0; c < factors.length; c++) {
    const combination = combinations[c]!;
    const extremes = edge.cases[c]!;
    const offset = combineLoads(edge, acting, factors[c]!, combination, extremes);
    if (detail === 'halfway') rule.halfway(nodes, combination.slope, length, offset, seen, edge.caseHalfway[c]!);
    if (!(extremes.peak <= edge.worst)) {
      edge.worst = extremes.peak;
      edge.worstCase = c;
    }
  }
  if (!solved) edge.worst = Number.NaN;
}
