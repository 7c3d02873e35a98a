import type { RoomWish } from '../host/index.js';
import type { ChannelWish } from './resolved.js';

/** What all channels of a brief together ask of their host: of a pair, the room that both take. */
export function roomWish({
  mirror,
  wall,
  edgeRadius,
  largest,
  pair,
}: Pick<ChannelWish, 'wall' | 'edgeRadius' | 'largest' | 'pair'> & Partial<Pick<ChannelWish, 'mirror'>>): RoomWish {
  const both = pair === undefined ? largest : pair.largest;
  return { mirror: mirror ?? false, wall, edgeRadius, ...(both === undefined ? {} : { largest: both }) };
}
