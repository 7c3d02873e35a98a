import {
  type Curve,
  followOutline,
  hostOf,
  type MeshedField,
  meshedField,
  type ResolvedBrief,
  sideBySide,
} from '@lumenfront/core';
import { meshNodes } from './mesh-nodes.js';

/** Stress in what surrounds a channel, by the independent mesh, over the room of the host; `undefined` of a host without a shape. */
export function channelField(
  brief: Pick<ResolvedBrief, 'joint' | 'loads' | 'cases' | 'channel'>,
  outline: Curve | undefined,
): MeshedField | undefined {
  const { joint, loads, cases, channel } = outline === undefined ? brief : followOutline(brief, outline);
  const { shape } = hostOf(joint);
  if (shape === undefined) return undefined;
  return meshedField(joint, loads, cases, outline && meshNodes(outline, 0), {
    box: shape.roomBox,
    channels: sideBySide(channel),
  });
}
