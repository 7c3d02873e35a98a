import type { ChannelObjective } from '@lumenfront/core';
import type { DesignDocument } from './documents.js';

type Figures = Pick<DesignDocument, 'area' | 'conductance' | 'peak' | 'strength'>;

/** What a front makes large: mm2 or mm4. */
export function sizeOf({ size }: ChannelObjective, { area, conductance }: Figures): number {
  return size === 'flow' ? conductance : area;
}

/** What it makes small: MPa, or one over load factor or strength retained; Infinity where nothing is left of it. */
export function costOf({ cost }: ChannelObjective, { peak, strength }: Figures): number {
  if (cost === 'peak') return peak;
  return 1 / (strength?.[cost === 'loadFactor' ? 'loadFactor' : 'retained'] ?? Number.NaN);
}
