import { type FailureStart, placeLabel } from '@lumenfront/core';

/** Where failure of a joint with its channel starts, how far from the edge, and whether a crack from there meets it, as tables and the report say it. */
export function startText({ place, fromEdge, crackMeets }: FailureStart): string {
  if (place === 'edge' || fromEdge === undefined || !Number.isFinite(fromEdge)) return placeLabel(place);
  const crack = crackMeets === undefined ? '' : crackMeets ? ', a crack meets it' : ', a crack passes it by';
  return `${placeLabel(place)}, ${fromEdge.toFixed(2)} mm off the edge${crack}`;
}

/** `1.31, filler`: how clearly failure starts at one place, and which fails next. */
export function clarityText({ clarity, next }: Pick<FailureStart, 'clarity' | 'next'>): string | undefined {
  if (clarity === undefined || next === undefined || !Number.isFinite(clarity)) return undefined;
  return `${clarity.toFixed(2)}, ${placeLabel(next)}`;
}
