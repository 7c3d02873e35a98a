import type { UsedMaterial } from '@lumenfront/core';

const sources = {
  own: 'own values',
  'built-in': 'built-in, typical',
  default: 'built-in, typical; none is named there',
} as const;

/** Every material, where it is used and whose values it has: `resin in filler (own values)`. */
export function describeMaterials(materials: readonly UsedMaterial[]): string {
  return materials
    .map(({ name, at, source }) => {
      const places = at.map((place) => place.replace(/^host\.?/, '') || 'section');
      return `${name} in ${places.join(', ')} (${sources[source]})`;
    })
    .join('; ');
}

/** The same as a line below the title of a result; older results do not tell. */
export function materialsLine({ materials }: { readonly materials?: readonly UsedMaterial[] }): string[] {
  return materials === undefined ? [] : [`materials: ${describeMaterials(materials)}`];
}
