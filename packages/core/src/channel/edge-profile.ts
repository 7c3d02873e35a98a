import {
  type Border,
  type CurvatureOutline,
  type CurveNodes,
  createCurveNodes,
  createOutlineMeasure,
  measureOutline,
  type NodeRates,
} from '../outline/index.js';
import { createEdgeMemory, createStressModel, type EdgeMemory } from '../stress/index.js';
import { type ChannelTask, channelBorder, channelRoom } from './task.js';

/** An outline by curvature as a descent sees it. Each array is written again by the next call for as many nodes. */
export interface EdgeProfile {
  /** mm2 */
  readonly area: number;
  /** Hoop stress at the nodes that are seen and half way to the next, case by case, MPa. */
  readonly hoop: Float64Array;
  /** Largest of them. */
  readonly peak: number;
  /** Room that is left at four places to a node, mm: wall beyond what is asked for, and distance from the sides of the box. */
  readonly room: Float64Array;
}

/** Rates of a profile, for every value of the outline: one row to a value of the profile. */
export interface ProfileSlopes {
  readonly area: Float64Array;
  readonly hoop: Float64Array;
  readonly room: Float64Array;
  /** Velocities along the outward normal at the nodes that are seen. */
  readonly normal: Float64Array;
  /** What they cost, in evaluations. */
  readonly evaluations: number;
}

/** What a descent of outlines by curvature asks for, of one task. */
export interface EdgeProfiler {
  /** Undefined where the outline cannot be solved. */
  profile(outline: CurvatureOutline, values: Float64Array, count: number): EdgeProfile | undefined;
  /** Slopes at the outline that was profiled last. */
  slopes(outline: CurvatureOutline, values: Float64Array, count: number): ProfileSlopes;
}

const roomPlaces = 4;
/** Largest move of a node for a difference, in mean radii: below, the noise of outlines along the control contour shows. */
const differenceMove = 2e-4;

export function createEdgeProfiler(task: ChannelTask): EdgeProfiler {
  const stress = createStressModel(task.model, task.loads, task.cases, 1e-10);
  const border = channelBorder(task.joint);
  const { wall, largest } = task.channel;
  const box = largest === undefined ? undefined : channelRoom(task);
  const cases = task.cases.length;
  const measure = createOutlineMeasure();
  const nowhere: Border = { distance: () => Number.POSITIVE_INFINITY };
  const memory = createEdgeMemory();
  let key = '';

  const roomAt = (x: number, y: number): number => {
    const left = border.distance(x, y) - wall;
    return box === undefined ? left : Math.min(left, box.xMax - x, x - box.xMin, box.yMax - y, y - box.yMin);
  };

  /** Under loads that are not mirror-symmetric both halves of a symmetric outline are looked at. */
  const hoopSeen = (mirror: boolean, count: number) => (mirror && stress.symmetric ? count / 2 : count);
  const hoopOf = (nodes: CurveNodes, mirror: boolean, out: Float64Array, memory: EdgeMemory): boolean => {
    const seen = hoopSeen(mirror, nodes.count);
    measureOutline(nodes, nowhere, measure);
    const result = stress.evaluate(nodes, mirror && stress.symmetric, 'halfway', memory);
    for (let c = 0, at = 0; c < cases; c++)
      for (let j = 0; j < seen; j++) {
        out[at++] = result.caseHoop[c]![j]!;
        out[at++] = result.caseHalfway[c]![j]!;
      }
    return Number.isFinite(result.worst);
  };

  return {
    profile(outline, values, count) {
      const { mirror } = outline.form;
      const seen = mirror ? count / 2 : count;
      const now = `${count} ${mirror}`;
      if (now !== key) memory.phi = [];
      key = now;
      const nodes = createCurveNodes(count);
      const fine = createCurveNodes(roomPlaces * count);
      outline.place(values, nodes);
      outline.place(values, fine);
      const hoop = new Float64Array(2 * cases * hoopSeen(mirror, count));
      if (!hoopOf(nodes, mirror, hoop, memory)) return undefined;
      const { area } = measure;
      if (!measure.simple) return undefined;
      const room = new Float64Array(roomPlaces * seen);
      for (let j = 0; j < room.length; j++) room[j] = roomAt(fine.x[j]!, fine.y[j]!);
      return { area, hoop, peak: hoop.reduce((a, b) => Math.max(a, b)), room };
    },
    slopes(outline, values, count) {
      const { mirror } = outline.form;
      const seen = mirror ? count / 2 : count;
      const size = values.length;
      const nodes = createCurveNodes(count);
      outline.place(values, nodes);
      const rates = createRates(size * count);
      outline.rates(values, nodes, rates);
      const area = new Float64Array(size);
      const normal = new Float64Array(seen * size);
      const sides = (mirror ? 2 : 1) * ((2 * Math.PI) / count);
      for (let k = 0; k < size; k++)
        for (let j = 0, at = k * count; j < seen; j++, at++) {
          const tx = nodes.dx[j]!;
          const ty = nodes.dy[j]!;
          const outwards = rates.x[at]! * ty - rates.y[at]! * tx;
          area[k]! += sides * outwards;
          normal[j * size + k] = outwards / Math.sqrt(tx * tx + ty * ty);
        }
      const fineCount = roomPlaces * count;
      const fine = createCurveNodes(fineCount);
      outline.place(values, fine);
      const fineRates = createRates(size * fineCount);
      outline.rates(values, fine, fineRates);
      const room = new Float64Array(roomPlaces * seen * size);
      const unit = values[outline.lengthAt]! / (2 * Math.PI);
      const step = 1e-6 * unit;
      for (let j = 0; j < roomPlaces * seen; j++) {
        const x = fine.x[j]!;
        const y = fine.y[j]!;
        const byX = (roomAt(x + step, y) - roomAt(x - step, y)) / (2 * step);
        const byY = (roomAt(x, y + step) - roomAt(x, y - step)) / (2 * step);
        for (let k = 0; k < size; k++)
          room[j * size + k] = byX * fineRates.x[k * fineCount + j]! + byY * fineRates.y[k * fineCount + j]!;
      }
      const hoop = new Float64Array(2 * cases * hoopSeen(mirror, count) * size);
      const here = new Float64Array(2 * cases * hoopSeen(mirror, count));
      const beside = new Float64Array(here.length);
      hoopOf(nodes, mirror, here, memory);
      const moved = values.slice();
      for (let k = 0; k < size; k++) {
        let most = 0;
        for (let j = 0; j < count; j++)
          most = Math.max(most, Math.hypot(rates.x[k * count + j]!, rates.y[k * count + j]!));
        const by = (differenceMove * unit) / most;
        moved[k] = values[k]! + by;
        outline.place(moved, nodes);
        hoopOf(nodes, mirror, beside, memory);
        moved[k] = values[k]!;
        for (let i = 0; i < here.length; i++) hoop[i * size + k] = (beside[i]! - here[i]!) / by;
      }
      return { area, hoop, room, normal, evaluations: size + 1 };
    },
  };
}

function createRates(size: number): NodeRates {
  const buffer = () => new Float64Array(size);
  return { x: buffer(), y: buffer(), dx: buffer(), dy: buffer() };
}
