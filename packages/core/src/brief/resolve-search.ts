import type { SearchWish } from './resolved.js';
import type { BriefData } from './schema.js';

/** What the words of a brief for the size and the cost of a front stand for. */
export const objectiveSizes = {
  area: 'area',
  conductance: 'conductance',
  /** What older briefs say. */
  flow: 'conductance',
} as const;
/** What a front can make small or, where more is better, large. */
export const objectiveCosts = {
  peak: 'peak',
  'load-factor': 'loadFactor',
  'strength-retained': 'strengthRetained',
} as const;

export function resolveSearch({ seed, evaluations, enlarge, against }: BriefData['search']): SearchWish {
  return { seed, evaluations, objective: { size: objectiveSizes[enlarge], cost: objectiveCosts[against] } };
}
