import { type FailureStart, placeLabel } from '@lumenfront/core';

type Start = Pick<FailureStart, 'place' | 'fromEdge' | 'crackPath' | 'crackMeets'>;

/** Where failure of a joint with its channel starts, how far from the edge, and whether a crack from there meets it, as tables and the report say it; `at`: its place as text. */
export function startText({ place, fromEdge, crackPath, crackMeets }: Start, at?: string): string {
  const start = at === undefined ? placeLabel(place) : `${placeLabel(place)} at ${at} mm`;
  if (place === 'edge' || fromEdge === undefined || !Number.isFinite(fromEdge)) return start;
  return `${start}, ${fromEdge.toFixed(2)} mm off the edge${crackText(crackPath, crackMeets)}`;
}

function crackText(path: FailureStart['crackPath'], meets: boolean | undefined): string {
  if (meets === undefined) return '';
  if (path === 'along') return ', a crack along it passes by';
  if (path !== 'kinking') return meets ? ', a crack meets it' : ', a crack passes it by';
  return meets ? ', a crack kinking out meets it' : ', a crack passes it by, kinking or not';
}

/** `1.31, filler`: how clearly failure starts at one place, and which fails next. */
export function clarityText({ clarity, next }: Pick<FailureStart, 'clarity' | 'next'>): string | undefined {
  if (clarity === undefined || next === undefined || !Number.isFinite(clarity)) return undefined;
  return `${clarity.toFixed(2)}, ${placeLabel(next)}`;
}
