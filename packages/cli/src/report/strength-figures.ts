import { placeLabel, type StrengthStarts } from '@lumenfront/core';
import { clarityText, startText } from '../words/index.js';
import type { ReportStrength } from './data.js';

/** What the report says of the strength that a channel leaves. */
export function strengthFigures(strength: StrengthStarts): ReportStrength {
  const { retained, loadFactor, worstCase, cases, beside } = strength;
  const clearness = clarityText(strength);
  const starts = Object.entries(cases).filter(([, { place }]) => place !== 'none');
  return {
    ...{ retained, loadFactor, worstCase, startsAt: startText(strength) },
    ...(clearness === undefined ? {} : { next: clearness }),
    ...(beside && { beside: beside.stress }),
    cases: Object.fromEntries(
      starts.map(([name, one]) => [name, { place: placeLabel(one.place), loadFactor: one.loadFactor, at: one.at }]),
    ),
  };
}
