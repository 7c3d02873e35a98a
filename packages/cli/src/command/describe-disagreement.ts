import type { Agreement } from '@lumenfront/core';

const percent = (share: number) => `${(100 * Math.abs(share)).toFixed(2)} %`;

/** That the models of a channel disagree, where most, and what to do. */
export function describeDisagreement(
  what: string,
  { worst }: Agreement,
  { wall, minEdgeRadius }: { readonly wall: number; readonly minEdgeRadius: number },
): string {
  const { under, fast, meshed, difference, error } = worst;
  const limits = [
    ...(Number.isFinite(wall) ? [`channel.wall above ${wall.toFixed(3)} mm`] : []),
    `channel.edgeRadius above ${minEdgeRadius.toFixed(3)} mm`,
  ];
  return (
    `fast model and mesh disagree on ${what}: under ${under} they give ${fast.toFixed(2)} and ${meshed.toFixed(2)} MPa, ` +
    `${percent(difference)} of the largest hoop stress apart; expected at most 1 %, or the mesh's own error of ${percent(error)}. ` +
    `Use the meshed values for this channel, and keep searches away from its like: ${limits.join(', ')}`
  );
}
