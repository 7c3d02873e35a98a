import type { ChannelDesign, ChannelObjective, StrengthSummary } from '@lumenfront/core';

/** What of a channel a front can trade. */
export interface TradedFigures extends Pick<ChannelDesign, 'area' | 'conductance' | 'peak' | 'row'> {
  readonly strength?: Pick<StrengthSummary, 'loadFactor' | 'retained'>;
}

/** What a front makes large: mm2 or mm4; of a row in a metre of width. */
export function sizeOf({ size }: ChannelObjective, { area, conductance, row }: TradedFigures): number {
  if (size === 'conductance') return row?.conductancePerMetre ?? conductance;
  return row?.areaPerMetre ?? area;
}

/** Whether a channel is one to take: within the allowed peak or, on a front that trades strength, one that bears the loads as given. */
export function meets({ peak, strength }: TradedFigures, allow: number, objective?: ChannelObjective): boolean {
  if (objective === undefined || objective.cost === 'peak') return peak <= allow;
  return strength !== undefined && strength.loadFactor >= 1;
}

/** What it makes small: MPa, or one over load factor or strength retained; Infinity where nothing is left of it. */
export function costOf({ cost }: ChannelObjective, { peak, strength }: TradedFigures): number {
  if (cost === 'peak') return peak;
  return 1 / (strength?.[cost === 'loadFactor' ? 'loadFactor' : 'retained'] ?? Number.NaN);
}
