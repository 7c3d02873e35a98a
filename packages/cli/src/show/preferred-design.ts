import type { ChannelObjective, DesignDocument } from '@lumenfront/core';
import { meets, sizeOf } from '@lumenfront/optimizer';

const areaOf = (design: DesignDocument) => sizeOf({ size: 'area', cost: 'peak' }, design);

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
    return (aHolds ? areaOf(b) > areaOf(a) : b.peak < a.peak) ? b : a;
  }, undefined);
  return best === undefined ? 0 : designs.indexOf(best);
}
