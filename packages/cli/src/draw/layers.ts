import type { HostShape } from '@lumenfront/core';

/** Layer of a drawing for what the channel is embedded in: `FILLER`. */
export function roomLayer({ roomName }: HostShape): string {
  return roomName.toUpperCase().replace(/[^A-Z0-9]+/g, '_');
}
