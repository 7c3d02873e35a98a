import type { DesignDocument } from '@lumenfront/core';

/** The design told and shown first: the largest within the allowed peak, or else the one of the least peak. */
export function preferredDesign(designs: readonly DesignDocument[], allow: number): number {
  const best = designs.reduce<DesignDocument | undefined>((a, b) => {
    if (a === undefined) return b;
    const [aHolds, bHolds] = [a.peak <= allow, b.peak <= allow];
    if (aHolds !== bHolds) return aHolds ? a : b;
    return (aHolds ? b.area > a.area : b.peak < a.peak) ? b : a;
  }, undefined);
  return best === undefined ? 0 : designs.indexOf(best);
}
