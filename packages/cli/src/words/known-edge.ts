import type { StrengthSummary } from '@lumenfront/core';

/** A sentence on the edge of a channel of known outline, where it bears more than the one that is told of: its peak is not the section's then. `only`: the outline that is held to what is allowed. */
export function knownEdgeText(
  peak: number,
  strength: Pick<StrengthSummary, 'beside'> | undefined,
  allow: number,
  only: string,
): string[] {
  const beside = strength?.beside;
  if (beside === undefined || beside.stress <= peak) return [];
  return [
    `the channel of known outline beside it bears more, ${beside.stress.toFixed(2)} MPa in case ${beside.worstCase}: ${beside.stress <= allow ? 'within' : 'beyond'} the allowed ${allow} MPa, to which only ${only} is held`,
  ];
}
