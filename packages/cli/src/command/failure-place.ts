import type { FailureStart } from '@lumenfront/core';

const places: Readonly<Record<FailureStart['place'], string>> = {
  edge: 'channel edge',
  filler: 'filler',
  'arc-interface': 'filler/overlaminate',
  'base-interface': 'filler/skin',
  bend: 'bend',
  foot: 'foot',
  web: 'web',
  skin: 'skin',
  none: 'nowhere',
};

/** Where failure starts, as an engineer says it. */
export function describePlace(place: FailureStart['place']): string {
  return places[place];
}
