import type { RoomWish } from '../host/index.js';
import type { ChannelWish } from './resolved.js';

/** What all channels of a brief together ask of their host: of several, the room that they take. */
export function roomWish({
  mirror,
  wall,
  edgeRadius,
  largest,
  group,
}: Pick<ChannelWish, 'wall' | 'edgeRadius' | 'largest' | 'group'> & Partial<Pick<ChannelWish, 'mirror'>>): RoomWish {
  const all = group === undefined ? largest : group.largest;
  return { mirror: mirror ?? false, wall, edgeRadius, ...(all === undefined ? {} : { largest: all }) };
}
