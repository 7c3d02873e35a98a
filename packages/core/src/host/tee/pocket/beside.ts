import type { PlaceDefinition } from '../../place.js';
import { fillAround } from './fill-around.js';
import { addAroundChannel } from './filler-rows.js';
import { fillerOpening } from './known-channel.js';

/** How a tee with a pocket is made around a channel of known outline: handed in, so that a page that has none need not fetch it. */
export interface Beside {
  readonly fillAround: typeof fillAround;
  readonly addAroundChannel: typeof addAroundChannel;
  readonly fillerOpening: typeof fillerOpening;
}

export const beside: Beside = { fillAround, addAroundChannel, fillerOpening };

/** With a channel of known outline in the filler. */
export const besidePlaces: Readonly<Record<'joint-channel', PlaceDefinition>> = {
  'joint-channel': { label: 'edge of the channel in the filler', stride: 3, zone: 'joint-filler', isEdge: true },
};
