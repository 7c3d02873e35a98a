import {
  createEdgeSolver,
  createHoopExtremes,
  createPairSolver,
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
import { byCount, type CurveNodes, createCurveNodes, type NodeRates } from '../outline/index.js';
import { caseFactors } from './case-factors.js';

/** An outline as it was solved, and the stress around its edge. MPa, mm. Overwritten by the next call on the same model. */
export interface SolvedEdge {
  nodes: CurveNodes;
  /** Solved as mirror-symmetric. */
  readonly mirror: boolean;
  /** The right one of two edges that are mirror images of each other. */
  readonly pair: boolean;
  /**
   * Of a pair under loads that are not all symmetric: values of cases are those at the nodes, then those at their images on the left edge.
   * Those of a load are the same there, or with the other sign.
   */
  readonly bothSides: boolean;
  /** The point inside that it was solved with: well away from the edge, as its nodes see it. */
  readonly inner: InnerPoint;
  /** One per load of the model's `loads`, at its given size; of a pair, over both edges. */
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
  /** Boundary values of phi at the nodes, over the basis's length, one array per load: with the moments that the host sees they tell the stresses elsewhere. */
  phi: readonly Float64Array[];
  /** Moments that the host sees, one array per load. */
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
  /** Takes the numbers of the reduced model anew, which whoever owns it has changed. Allocates nothing. */
  reload(): void;
  /** All loads are symmetric in x = 0, so that mirror-symmetric outlines can be solved as such. */
  readonly symmetric: boolean;
  /** Outlines stand for themselves and their mirror images. */
  readonly pair: boolean;
}

/** Largest relative residual that is still an answer: far below every other error of the model. */
const largestResidual = 1e-6;

/** How a stress model solves. */
export interface StressOptions {
  /** Relative residual at which the edge equation counts as solved; default 1e-11. */
  readonly tolerance?: number;
  /** Outlines, given on the right of `x = 0`, stand for themselves and their mirror images. */
  readonly pair?: boolean;
}

/**
 * Makes the fast model of `loads` and `cases` on a reduced host. Throws InputError for a load that the host does not know and
 * a case that names a load which is not given; for a pair, where the host is not mirror-symmetric or a load is neither symmetric nor
 * antisymmetric.
 */
export function createStressModel(
  model: ReducedModel,
  loads: Loads,
  cases: readonly LoadCase[],
  { tolerance = 1e-11, pair = false }: StressOptions = {},
): StressModel {
  const acting = actingLoads(model, loads);
  if (pair) checkPair(model, acting);
  const together: Acting = { loads: acting, basis: model.basis };
  const names = acting.map(({ name }) => name);
  const factors = cases.map((one) => caseFactors(one, names));
  const symmetric = acting.every((load) => load.symmetric);
  const bothSides = pair && !symmetric;
  const workspaces = [false, true].map((mirror) =>
    byCount((count) => createWorkspace(model, { count, mirror, pair, bothSides }, acting, cases.length, tolerance)),
  );
  const workspace = (count: number, mirror: boolean): Workspace => workspaces[mirror ? 1 : 0]!(count);
  /** What combinations are worked out in. */
  const combination = byCount((count) =>
    createCombination(new Float64Array(2 * count), new Float64Array((bothSides ? 2 : 1) * count), count),
  );

  return {
    loads: names,
    cases: cases.map(({ name }) => name),
    symmetric,
    pair,
    reload() {
      for (const load of acting) fillUndisturbed(model, loads, load);
    },
    evaluate(nodes, mirror, detail = 'loads', memory) {
      if (mirror && pair) throw new Error('of a pair each outline lies on its own side');
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
      const rows = mirror ? nodes.count / 2 : nodes.count;
      const size = howMany * rows * (bothSides ? 2 : 1);
      if (size > (space.caseRates.hoop[0]?.length ?? 0)) space.caseRates = createCaseRates(cases.length, size);
      for (const at of ['hoop', 'halfway'] as const)
        for (let c = 0; c < cases.length; c++)
          writeCaseRates(byLoad[at], together, factors[c]!, { rows, howMany, bothSides }, space.caseRates[at][c]!);
      return { ...space.caseRates, loads: byLoad, motions, howMany };
    },
    combine(edge, factors, out) {
      combineLoads(edge, together, factors, combination(edge.nodes.count), out);
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
  /** Neither symmetric nor antisymmetric. */
  readonly mixed: boolean;
}

/** Throws where a pair cannot be solved. */
function checkPair(model: ReducedModel, acting: readonly ActingLoad[]): void {
  const refuse = (path: string, expected: string, received: string, remedy: string) => {
    throw new InputError({ path, expected, received, remedy });
  };
  if (!isMirrored(model))
    refuse('channels.number', '1 in a host without mirror symmetry', '2', 'ask for one channel, or take another host');
  for (const { name, mixed } of acting)
    if (mixed)
      refuse(
        `loads.${name}`,
        'of two channels, a load that is symmetric or antisymmetric about the line between them',
        'one that is both at once',
        'leave out what shears, or what does not',
      );
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
      let even = false;
      let acting = false;
      for (const unit of model.loads) {
        if (unit.name !== name) continue;
        const size = loads[name]![unit.size] ?? 0;
        const from = unit.symmetric ? 0 : places;
        for (let i = 0; i < places; i++) atPlaces[from + i]! += size * unit.atPlaces[i]!;
        offset += size * unit.offset;
        if (size !== 0 && acting && unit.response !== response) refuseBoth(name);
        if (size !== 0 || !acting) response = unit.response;
        acting ||= size !== 0;
        if (size !== 0 && !unit.symmetric) symmetric = false;
        if (size !== 0 && unit.symmetric) even = true;
      }
      fillUndisturbed(model, loads, { name, undisturbed });
      return {
        name,
        undisturbed,
        atPlaces,
        offset,
        symmetric,
        mixed: even && !symmetric,
        response: response < 0 ? undefined : model.responses[response]!,
        responseIndex: response,
      };
    });
}

/** One size moves what holds the host, the other loads it: it answers each in its own way. */
function refuseBoth(load: LoadName): never {
  throw new InputError({
    path: `loads.${load}`,
    expected: 'one size: the host is held in another way under each',
    received: 'two',
    remedy: 'give one of them, the other 0 or left out',
  });
}

/** Writes a load's undisturbed field: that of its unit loads at their sizes. */
function fillUndisturbed(
  model: ReducedModel,
  loads: Loads,
  { name, undisturbed }: Pick<ActingLoad, 'name' | 'undisturbed'>,
): void {
  undisturbed.fill(0);
  for (const unit of model.loads) {
    if (unit.name !== name) continue;
    const size = loads[name]![unit.size] ?? 0;
    for (let i = 0; i < undisturbed.length; i++) undisturbed[i]! += size * unit.undisturbed[i]!;
  }
}

/** What a combination of loads is worked out in on one edge, and over how many of the nodes its extremes are looked for. */
interface Side {
  /** -1: the left edge of a pair, at the images of the nodes. */
  readonly sign: 1 | -1;
  readonly slope: Float64Array;
  readonly hoop: Float64Array;
  readonly seen: number;
  readonly extremes: HoopExtremes;
  /** Half way from each node to the next, where that is wanted. */
  readonly halfway: Float64Array | undefined;
}

/** The edges on which a combination differs. */
type Combination = readonly Side[];

/** `hoop` and `halfway` hold one value a node, or two: then of both sides. The sides share `slope`. */
function createCombination(slope: Float64Array, hoop: Float64Array, seen: number, halfway?: Float64Array): Combination {
  const count = slope.length / 2;
  return ([1, -1] as const).slice(0, hoop.length / count).map((sign, k) => ({
    ...{ sign, slope, seen, extremes: createHoopExtremes() },
    hoop: hoop.subarray(k * count, (k + 1) * count),
    halfway: halfway?.subarray(k * count, k * count + seen),
  }));
}

/** Factor of a load on one side: the left edge bears an antisymmetric load with the other sign. */
const factorOn = (sign: 1 | -1, { symmetric }: ActingLoad, factor: number): number =>
  symmetric || sign === 1 ? factor : -factor;

/** Superposes the loads into a combination and finds the extremes of their sum, over all of its sides. */
function combineLoads(
  { slopes, nodes }: Pick<SolvedEdge, 'slopes' | 'nodes'>,
  { loads, basis: { length } }: Acting,
  factors: ArrayLike<number>,
  sides: Combination,
  out: HoopExtremes,
): void {
  const rule = hoopRule(nodes.count);
  for (const side of sides) {
    const { sign, slope, hoop, seen, extremes } = side;
    slope.fill(0);
    let offset = 0;
    for (let l = 0; l < loads.length; l++) {
      const weight = factorOn(sign, loads[l]!, factors[l]!);
      if (weight === 0) continue;
      const part = slopes[l]!;
      for (let i = 0; i < slope.length; i++) slope[i]! += weight * part[i]!;
      offset += weight * loads[l]!.offset;
    }
    rule.atNodes(nodes, slope, length, offset, hoop);
    rule.extremes(nodes, slope, length, offset, hoop, extremes, seen);
    if (side.halfway !== undefined) rule.halfway(nodes, slope, length, offset, side.halfway);
    if (sign === 1 || extremes.peak > out.peak) {
      out.peak = extremes.peak;
      out.peakX = sign * extremes.peakX;
      out.peakY = extremes.peakY;
    }
    out.least = sign === 1 ? extremes.least : Math.min(out.least, extremes.least);
  }
}

/** Writes the sum of the loads' rates by their factors, motion by motion; of both sides, those of the left one behind those of the right one. */
function writeCaseRates(
  byLoad: readonly Float64Array[],
  { loads }: Acting,
  factors: ArrayLike<number>,
  { rows, howMany, bothSides }: { readonly rows: number; readonly howMany: number; readonly bothSides: boolean },
  out: Float64Array,
): void {
  out.fill(0);
  const sides = bothSides ? 2 : 1;
  for (let side = 0; side < sides; side++)
    for (let l = 0; l < loads.length; l++) {
      const weight = factorOn(side === 0 ? 1 : -1, loads[l]!, factors[l]!);
      const part = byLoad[l]!;
      if (weight === 0) continue;
      for (let p = 0, from = 0; p < howMany; p++)
        for (let j = 0, to = (p * sides + side) * rows; j < rows; j++, from++, to++) out[to]! += weight * part[from]!;
    }
}

function createCaseRates(cases: number, size: number): CaseRates {
  const arrays = () => Array.from({ length: cases }, () => new Float64Array(size));
  return { hoop: arrays(), halfway: arrays() };
}

/** The loads that act, and the basis, whose length is taken when it is needed. */
interface Acting {
  readonly loads: readonly ActingLoad[];
  readonly basis: ReducedModel['basis'];
}

type CaseRates = Pick<CaseSlopes, 'hoop' | 'halfway'>;

interface Workspace {
  readonly solver: Pick<EdgeSolver, 'solve' | 'slopes'>;
  /** Grown when slopes are asked for. */
  caseRates: CaseRates;
  /** One a case, at the nodes, and half way between them as well; they share their slope. */
  readonly combinations: Readonly<Record<'cases' | 'halfway', readonly Combination[]>>;
  /** Of each load alone, where it must be combined to find its extremes. */
  readonly alone: readonly Float64Array[];
  readonly ofLoad: Combination;
  readonly edge: SolvedEdge;
}

function createWorkspace(
  model: ReducedModel,
  { count, mirror, pair, bothSides }: Pick<CurveNodes, 'count'> & Pick<SolvedEdge, 'mirror' | 'pair' | 'bothSides'>,
  acting: readonly ActingLoad[],
  cases: number,
  tolerance: number,
): Workspace {
  const loads = acting.length;
  const odd = acting.map(({ symmetric }) => !symmetric);
  const solver = pair
    ? createPairSolver(model.basis, count, odd, tolerance)
    : createEdgeSolver(model.basis, count, mirror ? 'half' : 'whole', loads, tolerance);
  const arrays = (howMany: number, size: number) => Array.from({ length: howMany }, () => new Float64Array(size));
  const extremes = (howMany: number) => Array.from({ length: howMany }, createHoopExtremes);
  const slope = new Float64Array(2 * count);
  const along = bothSides ? 2 * count : count;
  const seen = mirror ? count / 2 : count;
  const caseHoop = arrays(cases, along);
  const caseHalfway = arrays(cases, along);
  return {
    solver,
    caseRates: createCaseRates(cases, 0),
    combinations: {
      cases: caseHoop.map((hoop) => createCombination(slope, hoop, seen)),
      halfway: caseHoop.map((hoop, c) => createCombination(slope, hoop, seen, caseHalfway[c]!)),
    },
    alone: acting.map((_, l) => Float64Array.from(acting, (_one, k) => (k === l ? 1 : 0))),
    ofLoad: createCombination(slope, new Float64Array(along), seen),
    edge: {
      nodes: createCurveNodes(count),
      mirror,
      pair,
      bothSides,
      inner: { x: 0, y: 0 },
      loads: extremes(loads),
      cases: extremes(cases),
      hoop: arrays(loads, count),
      caseHoop,
      caseHalfway,
      slopes: arrays(loads, 2 * count),
      phi: [],
      moments: arrays(loads, mirror ? 2 * model.basis.degree : 4 * model.basis.degree),
      worst: Number.NaN,
      worstCase: 0,
      iterations: 0,
    },
  };
}

function fillEdge(
  { combinations, alone, ofLoad, edge }: Workspace,
  solution: EdgeSolution,
  acting: Acting,
  factors: readonly Float64Array[],
  detail: StressDetail,
): void {
  const { loads, basis } = acting;
  const { length } = basis;
  const { nodes, slopes } = edge;
  const rule = hoopRule(nodes.count);
  const seen = edge.mirror ? nodes.count / 2 : nodes.count;
  const solved = solution.residual <= largestResidual;
  if (!solved) for (const values of [...solution.phi, ...solution.moments]) values.fill(Number.NaN);
  edge.phi = solution.phi;
  edge.iterations = solution.iterations;
  for (let l = 0; l < loads.length; l++) {
    const { offset } = loads[l]!;
    rule.slope(solution.phi[l]!, slopes[l]!);
    rule.atNodes(nodes, slopes[l]!, length, offset, edge.hoop[l]!);
    edge.moments[l]!.set(solution.moments[l]!);
    if (detail !== 'loads') continue;
    if (edge.bothSides) combineLoads(edge, acting, alone[l]!, ofLoad, edge.loads[l]!);
    else rule.extremes(nodes, slopes[l]!, length, offset, edge.hoop[l]!, edge.loads[l]!, seen);
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
