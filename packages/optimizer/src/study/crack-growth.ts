import { type CrackGrowth, type CurveNodes, meshedCracks, type ResolvedBrief, sideBySide } from '@lumenfront/core';

/** What a joint without such cracks is told. */
const noCracks =
  'strength.crackGrowth is left aside: cracks run out of a pocket between plies (host.pocket), and this joint has none';

/** Cracks that a brief asks about, or why there is nothing to say of them; neither where it does not ask. */
export function crackGrowthOf(
  { joint, loads, cases, channel, strength }: ResolvedBrief,
  nodes: CurveNodes,
): { readonly growth?: CrackGrowth; readonly caution?: string } {
  const wish = strength.crackGrowth;
  if (wish === undefined) return {};
  const cracks = meshedCracks({ joint, loads, cases }, nodes, wish, sideBySide(channel));
  if (cracks === undefined) return { caution: noCracks };
  const factors = cracks.flatMap((one) => Object.values(one.cases).map(({ loadFactor }) => loadFactor));
  return { growth: { ...wish, loadFactor: Math.min(...factors), cracks } };
}
