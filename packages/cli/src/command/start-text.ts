import { type FailureStart, placeLabel } from '@lumenfront/core';

/** Where failure of a joint with its channel starts, and how far from the edge, as tables and the report say it. */
export function startText({ place, fromEdge }: FailureStart): string {
  if (place === 'edge' || fromEdge === undefined || !Number.isFinite(fromEdge)) return placeLabel(place);
  return `${placeLabel(place)}, ${fromEdge.toFixed(2)} mm off the edge`;
}
