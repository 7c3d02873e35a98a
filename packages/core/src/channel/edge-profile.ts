import { InputError } from '../errors.js';
import {
  areaRates,
  type Border,
  type CurvatureOutline,
  type CurveNodes,
  createCurveNodes,
  createCurveRates,
  createOutlineMeasure,
  distanceRates,
  hasMiddle,
  measureOutline,
} from '../outline/index.js';
import { type CaseSlopes, createEdgeMemory, createStressModel, type SolvedEdge } from '../stress/index.js';
import { foretell, onTwiceTheNodes, type Sloped } from './foretell.js';
import { createGroupRoom } from './group-room.js';
import { rulingCases } from './ruling-cases.js';
import { createStrengthProfile } from './strength-profile.js';
import { type ChannelTask, channelBorder, channelRoom, hasSlopes, sideBySide, tradesStrength } from './task.js';

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

/** Relative residual of a profile: far below what a descent counts as nothing. */
const tolerance = 1e-7;
/** Places to a node at which room is looked at, and from how many nodes on half as many. */
const mostPlaces = 4;
const manyNodes = 256;
const placesTo = (count: number): number => (count > manyNodes ? mostPlaces / 2 : mostPlaces);
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
  const stress = createStressModel(task.model, task.loads, task.cases, { tolerance, channels: group });
  const trades = tradesStrength(task);
  const strength = createStrengthProfile(task);
  const border = channelBorder(task);
  const { wall, largest } = task.channel;
  const several = group.number > 1;
  const box = largest === undefined && !several ? undefined : channelRoom(task);
  const together = several ? createGroupRoom(task) : undefined;
  const ruling = rulingCases(task.cases);
  const measure = createOutlineMeasure();
  const nowhere: Border = { distance: () => Number.POSITIVE_INFINITY };
  /** Distance beyond the wall that is asked for, and from the sides of the box. */
  const left: Border = {
    distance(x, y) {
      const beyond = border.distance(x, y) - wall;
      return box === undefined ? beyond : Math.min(beyond, box.xMax - x, x - box.xMin, box.yMax - y, y - box.yMin);
    },
  };
  const memory = createEdgeMemory();
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

  let buffers: ReturnType<typeof createSlopeBuffers> | undefined;

  /** What of slopes the form alone tells. */
  const formSlopes = (outline: CurvatureOutline, values: Float64Array, count: number) => {
    const { mirror } = outline.form;
    const seen = mirror ? count / 2 : count;
    const size = values.length;
    if (buffers?.size !== size || buffers.nodes.count !== count) buffers = createSlopeBuffers(size, count);
    const { nodes, rates, fine, fineRates, roomByValue } = buffers;
    outline.place(values, nodes);
    outline.rates(values, nodes, rates);
    const area = new Float64Array(size);
    areaRates(nodes, rates, size, area);
    for (let k = 0; k < size; k++) area[k]! *= group.number;
    const normal = new Float64Array(seen * size);
    for (let k = 0; k < size; k++)
      for (let j = 0, at = k * count; j < seen; j++, at++) {
        const tx = nodes.dx[j]!;
        const ty = nodes.dy[j]!;
        normal[j * size + k] = (rates.x[at]! * ty - rates.y[at]! * tx) / Math.sqrt(tx * tx + ty * ty);
      }
    outline.place(values, fine);
    outline.rates(values, fine, fineRates);
    const places = placesTo(count) * seen;
    distanceRates(fine, left, fineRates, places, roomByValue.subarray(0, size * places));
    const room = new Float64Array(size * (places + (together?.count ?? 0)));
    room.set(transposed(roomByValue, size, places));
    together?.writeRates(fine, fineRates, size, room.subarray(size * places));
    return { nodes, rates, area, normal, room };
  };
  /** Area and room of a simple outline. */
  const formOf = (outline: CurvatureOutline, values: Float64Array, count: number) => {
    const { mirror } = outline.form;
    const nodes = createCurveNodes(count);
    const fine = createCurveNodes(placesTo(count) * count);
    outline.place(values, nodes);
    outline.place(values, fine);
    measureOutline(nodes, nowhere, measure);
    if (!measure.simple) return undefined;
    const places = placesTo(count) * (mirror ? count / 2 : count);
    const room = new Float64Array(places + (together?.count ?? 0));
    for (let j = 0; j < places; j++) room[j] = left.distance(fine.x[j]!, fine.y[j]!);
    together?.write(fine, room, places);
    return { nodes, area: group.number * measure.area, room };
  };

  const byCost: OutlineProfiler = {
    forget() {
      key = '';
      sloped = undefined;
    },
    profile(outline, values, count) {
      const { mirror } = outline.form;
      const form = formOf(outline, values, count);
      if (form === undefined) return undefined;
      const { nodes, area, room } = form;
      const edge = solve(nodes, mirror, foretold(outline, values, count));
      const { caseHoop, caseHalfway, worst } = edge;
      if (!Number.isFinite(worst)) return undefined;
      const seen = seenPlaces(edge);
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
      const { nodes, rates, area, normal, room } = formSlopes(outline, values, count);
      const edge = solve(nodes, mirror);
      strength?.values(edge);
      const byCase = stress.slopes(edge, rates, size);
      const { phi, phiRates } = byCase.loads;
      const orders = edge.each.map(({ onAxis }) => (edge.mirror || onAxis ? count : 2 * count));
      sloped = { outline, count, orders, values: values.slice(), phi: phi.map((one) => one.slice()), phiRates };
      const judged = strength?.slopes(byCase);
      const solved = seenPlaces(edge).length;
      const functions = judged !== undefined && trades ? judged.functions : hoopRates(byCase, ruling, solved, size);
      return { area, functions, limits: judged?.limits ?? none, room, normal, evaluations: slopesCost(size) };
    },
  };
  /** Of one over the area. */
  const sizeFunctions = (area: number) => ({ functions: Float64Array.of(1 / area), cost: 1 / area });
  return {
    ...byCost,
    bySize: {
      forget: byCost.forget,
      profile(outline, values, count) {
        const seen = strength === undefined ? formOf(outline, values, count) : byCost.profile(outline, values, count);
        return seen && { limits: none, ...seen, ...sizeFunctions(seen.area) };
      },
      slopes(outline, values, count) {
        const known =
          strength === undefined
            ? { ...formSlopes(outline, values, count), limits: none, evaluations: 1 }
            : byCost.slopes(outline, values, count);
        measureOutline(buffers!.nodes, nowhere, measure);
        const rate = -1 / (group.number * measure.area) ** 2;
        return { ...known, functions: known.area.map((by) => rate * by) };
      },
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

/** From one row to a value of the outline to one row to a place. */
function transposed(rows: Float64Array, size: number, places: number): Float64Array {
  const out = new Float64Array(size * places);
  for (let k = 0; k < size; k++) for (let j = 0; j < places; j++) out[j * size + k] = rows[k * places + j]!;
  return out;
}

/** What slopes of outlines of `size` values are worked out in; a descent asks for the same again and again. */
function createSlopeBuffers(size: number, count: number) {
  const fineCount = placesTo(count) * count;
  return {
    size,
    nodes: createCurveNodes(count),
    rates: createCurveRates(size, count),
    fine: createCurveNodes(fineCount),
    fineRates: createCurveRates(size, fineCount),
    roomByValue: new Float64Array(size * fineCount),
  };
}
