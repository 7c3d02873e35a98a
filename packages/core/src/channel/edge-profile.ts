import { judging } from '#judging';
import { exactSlopes } from '../edge/index.js';
import { InputError } from '../errors.js';
import { type CurvatureOutline, type CurveNodes, hasMiddle } from '../outline/index.js';
import { type CaseSlopes, createEdgeMemory, createStressModel, type SolvedEdge } from '../stress/index.js';
import { foretell, onTwiceTheNodes, type Sloped } from './foretell.js';
import { createFormProfiler, type FormProfiler } from './form-profile.js';
import { rulingCases } from './ruling-cases.js';
import { asksForStrength, type ChannelTask, hasSlopes, sideBySide, tradesStrength } from './task.js';

/** An outline by curvature as a descent sees it. */
export interface EdgeProfile {
  /** mm2, of all channels. */
  readonly area: number;
  /** Smooth in the outline; their largest is the cost: hoop stress at the nodes that are seen and half way to the next, case by case of those that can be the worst, MPa. */
  readonly functions: Float64Array;
  /** Largest of them. */
  readonly cost: number;
  /** Limits on strength, each met at 0 and below; none where nothing is asked. */
  readonly limits: Float64Array;
  /**
   * Room that is left at four places to a node, mm: wall beyond what is asked for, and distance from the sides of the box; then, of several channels, what is left of
   * `channel.largest` and of the pitch's tolerance.
   */
  readonly room: Float64Array;
}

/** Exact rates of a profile, for every value of the outline: one row to a value of the profile. */
export interface ProfileSlopes {
  readonly area: Float64Array;
  readonly functions: Float64Array;
  readonly limits: Float64Array;
  readonly room: Float64Array;
  /** Velocities along the outward normal at the nodes that are seen. */
  readonly normal: Float64Array;
  /** What they cost, in evaluations. */
  readonly evaluations: number;
}

/** What a descent of outlines by curvature asks for. */
export interface OutlineProfiler {
  /**
   * Forgets the solutions that the next outlines would start from: what is asked from here on has the same answers to the last bit, whatever
   * was asked before.
   */
  forget(): void;
  /** Undefined where the outline cannot be solved. */
  profile(outline: CurvatureOutline, values: Float64Array, count: number): EdgeProfile | undefined;
  /** Slopes at an outline that has a profile; it is solved again. */
  slopes(outline: CurvatureOutline, values: Float64Array, count: number): ProfileSlopes;
}

/** Of one task that `hasSlopes`. */
export interface EdgeProfiler extends OutlineProfiler {
  /** The same with one over the area, 1/mm2, as the only function, for who looks for the largest outline: nothing is solved where nothing is asked of the strength. */
  readonly bySize: OutlineProfiler;
}

/** Slopes of the cost tell the area, mm2, as well, to who asks for it. */
interface CostProfiler extends OutlineProfiler {
  slopes(...of: Parameters<OutlineProfiler['slopes']>): ProfileSlopes & { measured(): number };
}

/** Relative residual of a profile: far below what a descent counts as nothing. */
const tolerance = 1e-7;
const none = new Float64Array(0);

/**
 * What the slopes of an outline of `size` values cost, in evaluations of a profile, as `benchmarks/slopes.js` measures it on 128 and 192 nodes: 7.2 to 7.9 for 26
 * values, 9.4 to 11.2 for 42.
 */
export const slopesCost = (size: number): number => Math.ceil(4 + (3 * size) / 20);

/**
 * A profiler of outlines for one task: all that is kept small or within limits, at every node, with exact slopes by the outline's values.
 *
 * @throws InputError for a task of which no exact slopes are known: see `hasSlopes`
 */
export function createEdgeProfiler(task: ChannelTask): EdgeProfiler {
  if (!hasSlopes(task))
    throw new InputError({
      path: 'search',
      expected: 'area against the peak, or against strength with strength.edge: peak',
      received: 'a task of which no exact slopes are known',
      remedy: 'search it by createChannelScorer',
    });
  const group = sideBySide(task.channel);
  const stress = createStressModel(task.model, task.loads, task.cases, {
    tolerance,
    channels: group,
    slopes: exactSlopes,
  });
  const trades = tradesStrength(task);
  const strength = asksForStrength(task) ? judging().createStrengthProfile(task) : undefined;
  const several = group.number > 1;
  const form = createFormProfiler(task);
  const ruling = rulingCases(task.cases);
  const memory = createEdgeMemory();
  /** A stress model has one edge for each kind of solution. */
  const seenOn = new WeakMap<SolvedEdge, readonly SeenPlace[]>();
  const seenOf = (edge: SolvedEdge): readonly SeenPlace[] => {
    const known = seenOn.get(edge) ?? seenPlaces(edge);
    seenOn.set(edge, known);
    return known;
  };
  let key = '';
  /** Where slopes were taken last. */
  let sloped: Sloped | undefined;

  /** Solves an outline; under loads that are not mirror-symmetric both halves of a symmetric one. */
  const solve = (nodes: CurveNodes, mirror: boolean, near?: Float64Array[]): SolvedEdge => {
    const solvedAsMirror = mirror && stress.symmetric && !several;
    const now = `${nodes.count} ${solvedAsMirror}`;
    if (now !== key) memory.phi = [];
    if (near !== undefined) memory.phi = near;
    key = now;
    return stress.evaluate(nodes, solvedAsMirror, 'halfway', memory);
  };

  /** Where a solution may begin, as slopes that were taken of this outline tell; with twice their nodes as well. */
  const foretold = (outline: CurvatureOutline, values: Float64Array, count: number): Float64Array[] | undefined => {
    if (sloped?.outline !== outline) return undefined;
    const times = count / sloped.count;
    const near = times === 1 || times === 2 ? foretell(sloped, values) : undefined;
    if (times !== 2) return near;
    // Of one on the axis among others, half is foretold.
    return several && hasMiddle(group) ? undefined : near!.map((one) => onTwiceTheNodes(one, sloped!.count));
  };

  const byCost: CostProfiler = {
    forget() {
      key = '';
      sloped = undefined;
    },
    profile(outline, values, count) {
      const { mirror } = outline.form;
      const taken = form.profile(outline, values, count);
      if (taken === undefined) return undefined;
      const { nodes, area, room } = taken;
      const edge = solve(nodes, mirror, foretold(outline, values, count));
      const { caseHoop, caseHalfway, worst } = edge;
      if (!Number.isFinite(worst)) return undefined;
      const seen = seenOf(edge);
      const hoop = new Float64Array(2 * ruling.length * seen.length);
      let at = 0;
      for (const c of ruling)
        for (const { node, before } of seen) {
          hoop[at++] = caseHoop[c]![node]!;
          hoop[at++] = caseHalfway[c]![before]!;
        }
      const judged = strength?.values(edge);
      const functions = trades ? judged!.functions : hoop;
      const cost = functions.reduce((a, b) => Math.max(a, b));
      return { area, functions, cost, limits: judged?.limits ?? none, room };
    },
    slopes(outline, values, count) {
      const { mirror } = outline.form;
      const size = values.length;
      const taken = form.slopes(outline, values, count);
      const { nodes, rates, normal, room } = taken;
      const edge = solve(nodes, mirror);
      strength?.values(edge);
      const byCase = stress.slopes(edge, rates, size);
      const { phi, phiRates } = byCase.loads;
      const orders = edge.each.map(({ onAxis }) => (edge.mirror || onAxis ? count : 2 * count));
      sloped = { outline, count, orders, values: values.slice(), phi: phi.map((one) => one.slice()), phiRates };
      const judged = strength?.slopes(byCase);
      const solved = seenOf(edge).length;
      const functions = judged !== undefined && trades ? judged.functions : hoopRates(byCase, ruling, solved, size);
      return {
        ...{ measured: taken.area, area: taken.areaRates, functions, limits: judged?.limits ?? none, room, normal },
        evaluations: slopesCost(size),
      };
    },
  };
  return { ...byCost, bySize: createSizeProfiler(form, strength === undefined ? undefined : byCost) };
}

/** Of the form alone, or with the limits on strength that `judged` solves for. */
function createSizeProfiler(form: FormProfiler, judged: CostProfiler | undefined): OutlineProfiler {
  /** One over the area. */
  const functions = (area: number) => ({ functions: Float64Array.of(1 / area), cost: 1 / area });
  const functionRates = (area: number, rates: Float64Array) => {
    const rate = -1 / area ** 2;
    return rates.map((by) => rate * by);
  };
  return {
    forget: () => judged?.forget(),
    profile(outline, values, count) {
      const seen = (judged ?? form).profile(outline, values, count);
      return seen && { limits: none, ...seen, ...functions(seen.area) };
    },
    slopes(outline, values, count) {
      if (judged !== undefined) {
        const { measured, ...slopes } = judged.slopes(outline, values, count);
        return { ...slopes, functions: functionRates(measured(), slopes.area) };
      }
      const { area, areaRates, normal, room } = form.slopes(outline, values, count);
      return {
        area: areaRates,
        functions: functionRates(area(), areaRates),
        limits: none,
        room,
        normal,
        evaluations: 1,
      };
    },
  };
}

/** A place where the hoop stress has slopes: its node among those of `caseHoop`, and the node that it lies half way behind in `caseHalfway`. */
interface SeenPlace {
  readonly node: number;
  readonly before: number;
}

/** In the order of `CaseSlopes`: edge by edge, on one that is its own mirror image those on the right, then their images where loads differ there. */
function seenPlaces({ nodes: { count }, mirror, each, bothSides }: SolvedEdge): readonly SeenPlace[] {
  const whole = Array.from({ length: count }, (_, j) => j);
  let first = 0;
  return each.flatMap((one) => {
    const from = first;
    first += (one.bothSides ? 2 : 1) * count;
    const right = mirror || one.onAxis ? whole.slice(0, count / 2) : whole;
    const onRight = right.map((j) => ({ node: from + j, before: from + j }));
    if (one.onAxis && bothSides)
      return [
        ...onRight,
        ...right.map((j) => ({ node: from + count - 1 - j, before: from + ((2 * count - 2 - j) % count) })),
      ];
    return one.bothSides
      ? [...onRight, ...onRight.map((j) => ({ node: j.node + count, before: j.before + count }))]
      : onRight;
  });
}

/** From one row to a value of the outline to one row to a place: nodes and half way to the next by turns, case by case. */
function hoopRates(
  { hoop, halfway }: CaseSlopes,
  ruling: readonly number[],
  solved: number,
  size: number,
): Float64Array {
  const out = new Float64Array(2 * ruling.length * solved * size);
  for (const [place, c] of ruling.entries())
    for (let k = 0, from = 0; k < size; k++)
      for (let j = 0, to = 2 * place * solved * size + k; j < solved; j++, from++, to += 2 * size) {
        out[to] = hoop[c]![from]!;
        out[to + size] = halfway[c]![from]!;
      }
  return out;
}
