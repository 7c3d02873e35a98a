import {
  areaRates,
  type Border,
  type CurvatureOutline,
  type CurveNodes,
  createCurveNodes,
  createCurveRates,
  createOutlineMeasure,
  distanceRates,
  measureOutline,
} from '../outline/index.js';
import { createGroupRoom } from './group-room.js';
import { type ChannelTask, channelBorder, channelRoom, sideBySide } from './task.js';

/** What the form of a simple outline alone tells. */
export interface FormProfile {
  readonly nodes: CurveNodes;
  /** mm2, of all channels. */
  readonly area: number;
  /** As in `EdgeProfile`. */
  readonly room: Float64Array;
}

/** Exact rates of a form, by every value of the outline; `nodes` and `rates` hold until the next are asked for. */
export interface FormSlopes {
  readonly nodes: CurveNodes;
  readonly rates: ReturnType<typeof createCurveRates>;
  /** mm2, of all channels; measured when it is asked for. */
  area(): number;
  readonly areaRates: Float64Array;
  /** Velocities along the outward normal at the nodes that are seen, one row to a node. */
  readonly normal: Float64Array;
  /** One row to a place of the room. */
  readonly room: Float64Array;
}

export type FormProfiler = ReturnType<typeof createFormProfiler>;

/** Places to a node at which room is looked at, and from how many nodes on half as many. */
const mostPlaces = 4;
const manyNodes = 256;
const placesTo = (count: number): number => (count > manyNodes ? mostPlaces / 2 : mostPlaces);
const nowhere: Border = { distance: () => Number.POSITIVE_INFINITY };

/** A profiler of what outlines by curvature take of the joint's room: area, walls, box, what several channels need between them. Nothing is solved. */
export function createFormProfiler(task: ChannelTask) {
  const { number } = sideBySide(task.channel);
  const several = number > 1;
  const together = several ? createGroupRoom(task) : undefined;
  const togetherCount = together?.count ?? 0;
  const left = roomLeft(task, several);
  const measure = createOutlineMeasure();
  let buffers: ReturnType<typeof createSlopeBuffers> | undefined;
  return {
    /** Undefined of an outline that crosses itself. */
    profile(outline: CurvatureOutline, values: Float64Array, count: number): FormProfile | undefined {
      const nodes = createCurveNodes(count);
      const fine = createCurveNodes(placesTo(count) * count);
      outline.place(values, nodes);
      outline.place(values, fine);
      measureOutline(nodes, nowhere, measure);
      if (!measure.simple) return undefined;
      const places = placesTo(count) * (outline.form.mirror ? count / 2 : count);
      const room = new Float64Array(places + togetherCount);
      for (let j = 0; j < places; j++) room[j] = left.distance(fine.x[j]!, fine.y[j]!);
      together?.write(fine, room, places);
      return { nodes, area: number * measure.area, room };
    },
    slopes(outline: CurvatureOutline, values: Float64Array, count: number): FormSlopes {
      const size = values.length;
      if (buffers?.size !== size || buffers.nodes.count !== count) buffers = createSlopeBuffers(size, count);
      const { nodes, rates, fine, fineRates, roomByValue } = buffers;
      outline.place(values, nodes);
      outline.rates(values, nodes, rates);
      const byValue = new Float64Array(size);
      areaRates(nodes, rates, size, byValue);
      for (let k = 0; k < size; k++) byValue[k]! *= number;
      const seen = outline.form.mirror ? count / 2 : count;
      outline.place(values, fine);
      outline.rates(values, fine, fineRates);
      const places = placesTo(count) * seen;
      distanceRates(fine, left, fineRates, places, roomByValue.subarray(0, size * places));
      const room = new Float64Array(size * (places + togetherCount));
      room.set(transposed(roomByValue, size, places));
      together?.writeRates(fine, fineRates, size, room.subarray(size * places));
      const normal = normalRates(nodes, rates, size, seen);
      const area = (): number => {
        measureOutline(nodes, nowhere, measure);
        return number * measure.area;
      };
      return { nodes, rates, area, areaRates: byValue, normal, room };
    },
  };
}

/** Distance beyond the wall that is asked for, and from the sides of the box. */
function roomLeft(task: ChannelTask, several: boolean): Border {
  const border = channelBorder(task);
  const { wall, largest } = task.channel;
  const box = largest === undefined && !several ? undefined : channelRoom(task);
  return {
    distance(x, y) {
      const beyond = border.distance(x, y) - wall;
      return box === undefined ? beyond : Math.min(beyond, box.xMax - x, x - box.xMin, box.yMax - y, y - box.yMin);
    },
  };
}

/** Velocities along the outward normal at the first `seen` nodes, one row of `size` to a node. */
function normalRates(nodes: CurveNodes, rates: FormSlopes['rates'], size: number, seen: number): Float64Array {
  const { count } = nodes;
  const normal = new Float64Array(seen * size);
  for (let k = 0; k < size; k++)
    for (let j = 0, at = k * count; j < seen; j++, at++) {
      const tx = nodes.dx[j]!;
      const ty = nodes.dy[j]!;
      normal[j * size + k] = (rates.x[at]! * ty - rates.y[at]! * tx) / Math.sqrt(tx * tx + ty * ty);
    }
  return normal;
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
