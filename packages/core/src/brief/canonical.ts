import type { ResolvedBrief } from './resolved.js';

/**
 * What of a brief fixes its reduced model, as canonical JSON: joint, materials, and what shapes the control contour (wall
 * and edge radius). Not its loads: the model holds a unit load of every kind. The key of a cache.
 */
export function canonicalHost(brief: ResolvedBrief): string {
  const { joint, channel } = brief;
  const { wall, edgeRadius } = channel;
  return canonicalJson({ joint, wall, edgeRadius });
}

/** All of a brief that can change a result, as canonical JSON: everything but its title, cautions and the names of its materials. */
export function canonicalBrief(brief: ResolvedBrief): string {
  const { title: _title, cautions: _cautions, materials: _materials, ...rest } = brief;
  return canonicalJson(rest);
}

/** JSON with sorted keys and no white space: equal data gives equal text. Arrays keep their order. */
export function canonicalJson(value: unknown): string {
  return JSON.stringify(value, (_key, part: unknown) =>
    typeof part === 'object' && part !== null && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)))
      : part,
  );
}
