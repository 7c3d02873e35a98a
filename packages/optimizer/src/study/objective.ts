import type { ChannelDesign, ChannelObjective, StrengthSummary } from '@lumenfront/core';

/** What of a channel a front can trade. */
export interface TradedFigures extends Pick<ChannelDesign, 'area' | 'conductance' | 'peak'> {
  readonly strength?: Pick<StrengthSummary, 'loadFactor' | 'retained'>;
}

/** What a front makes large: mm2 or mm4. */
export function sizeOf({ size }: ChannelObjective, { area, conductance }: TradedFigures): number {
  return size === 'conductance' ? conductance : area;
}

/** What it makes small: MPa, or one over load factor or strength retained; Infinity where nothing is left of it. */
export function costOf({ cost }: ChannelObjective, { peak, strength }: TradedFigures): number {
  if (cost === 'peak') return peak;
  return 1 / (strength?.[cost === 'loadFactor' ? 'loadFactor' : 'retained'] ?? Number.NaN);
}
