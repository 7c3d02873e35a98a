import { hostOf } from '../host/index.js';
import { type Border, type CurveNodes, hasMiddle, type OutlineMeasure } from '../outline/index.js';
import { type ChannelTask, channelRoom, contourSlack, pitchTolerance } from './task.js';

/** What a task asks of the room that an outline takes: each figure is met at 0 and below, on the scale of a missing wall over the host's length. */
export interface RoomLimits {
  /** The worst of an outline that was measured: wall, size, pitch, and the contour that the model holds within. */
  worst(nodes: CurveNodes, measure: OutlineMeasure): number;
  /** Writes that of every node by itself, smooth along the edge, for an outline whose box has its middle at `middleX, middleY`. */
  write(nodes: CurveNodes, middleX: number, middleY: number, out: Float64Array): void;
  /** By how much the pitch that is asked for is missed, beyond what is allowed. */
  offPitch(measure: OutlineMeasure): number;
}

const none = Number.NEGATIVE_INFINITY;

/** `border`, `contour`: those that channels of the task keep their wall from, and that the model holds within. */
export function createRoomLimits(task: ChannelTask, border: Border, contour: Border): RoomLimits {
  const { joint, channel } = task;
  const { wall, largest, group } = channel;
  const widest = largest?.width ?? Number.POSITIVE_INFINITY;
  const highest = largest?.height ?? Number.POSITIVE_INFINITY;
  const depth = hostOf(joint).lengthScale;
  /**
   * What can be left sideways within wall and width: a contour that is cut down to the largest channel, up to half of what is allowed (a reporter looks
   * at more nodes); else, for several channels, the side of the room.
   */
  const { xMax } = channelRoom(task);
  const side: Border | undefined =
    largest !== undefined ? contour : group !== undefined ? { distance: (x) => xMax - Math.abs(x) } : undefined;
  const allowed = largest !== undefined ? contourSlack / 2 : 0;
  const beyond = (distance: number) => (-allowed - distance) / depth;
  const offPitch = ({ centroidX }: OutlineMeasure): number => {
    // The middle one of an odd number stands where it must.
    const pitch = group === undefined || hasMiddle(group) ? undefined : group.pitch;
    return pitch === undefined ? none : (Math.abs(2 * centroidX - pitch) - pitchTolerance * pitch) / depth;
  };
  return {
    offPitch,
    worst: (nodes, measure) =>
      Math.max(
        (wall - measure.wall) / depth,
        measure.width / widest - 1,
        measure.height / highest - 1,
        offPitch(measure),
        side === undefined ? none : beyond(leastDistance(nodes, side)),
      ),
    write({ x, y }, middleX, middleY, out) {
      for (let j = 0; j < out.length; j++)
        out[j] = Math.max(
          (wall - border.distance(x[j]!, y[j]!)) / depth,
          (2 * Math.abs(x[j]! - middleX)) / widest - 1,
          (2 * Math.abs(y[j]! - middleY)) / highest - 1,
          group === undefined ? none : beyond(side!.distance(x[j]!, y[j]!)),
        );
    },
  };
}

/** Least signed distance of the nodes from a border. mm */
export function leastDistance({ count, x, y }: CurveNodes, border: Border): number {
  let least = Number.POSITIVE_INFINITY;
  for (let j = 0; j < count; j++) least = Math.min(least, border.distance(x[j]!, y[j]!));
  return least;
}
