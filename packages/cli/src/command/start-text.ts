import { type FailureStart, placeLabel } from '@lumenfront/core';

/** Where failure of a joint with its channel starts, as tables and the report say it. */
export function startText({ place }: FailureStart): string {
  return placeLabel(place);
}
