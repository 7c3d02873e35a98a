import type { HostShape } from '@lumenfront/core';

/** The name of a layer of a drawing for what a name says: `FILLER`. */
export function layerNamed(name: string): string {
  return name.toUpperCase().replace(/[^A-Z0-9]+/g, '_');
}

/** Layer of a drawing for what the channel is embedded in. */
export const roomLayer = ({ roomName }: HostShape): string => layerNamed(roomName);

export const CHANNEL_LAYER = 'CHANNEL';
export const DIE_LAYER = 'DIE';
export const NAMES_LAYER = 'NAMES';
export const TITLE_LAYER = 'TITLE';
