import type { ChannelObjective, DesignDocument } from '@lumenfront/core';

/** Whether a design is one to take: within the allowed peak or, on a front that trades strength, one that bears the loads as given. */
export function meets({ peak, strength }: DesignDocument, allow: number, objective?: ChannelObjective): boolean {
  if (objective === undefined || objective.cost === 'peak') return peak <= allow;
  return strength !== undefined && strength.loadFactor >= 1;
}

/** The design told and shown first: the largest to take, or else the one of the least peak. */
export function preferredDesign(
  designs: readonly DesignDocument[],
  allow: number,
  objective?: ChannelObjective,
): number {
  const best = designs.reduce<DesignDocument | undefined>((a, b) => {
    if (a === undefined) return b;
    const [aHolds, bHolds] = [meets(a, allow, objective), meets(b, allow, objective)];
    if (aHolds !== bHolds) return aHolds ? a : b;
    return (aHolds ? b.area > a.area : b.peak < a.peak) ? b : a;
  }, undefined);
  return best === undefined ? 0 : designs.indexOf(best);
}
