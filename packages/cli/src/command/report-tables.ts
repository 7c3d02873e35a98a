import { type DesignDocument, placeLabel, type StrengthReport } from '@lumenfront/core';
import type { ReportTable } from '../report/index.js';
import { clarityText, startText } from '../words/index.js';
import { factorText, fatigueLimits, percentText, placeText, ratioText } from './strength-text.js';

const orDash = (text: string | undefined) => text ?? '–';

/** What a design leaves of the joint, and for how long. */
export function strengthTables({ cases }: StrengthReport, limits: string): ReportTable[] {
  const entries = Object.entries(cases);
  return [
    {
      heading: 'Strength of the joint',
      columns: [
        'case',
        'load factor',
        'without channel',
        'retained, %',
        'failure starts',
        'at x, y, mm',
        'next place, times the load',
      ],
      rows: entries.map(([name, one]) => [
        name,
        orDash(factorText(one.loadFactor)),
        orDash(factorText(one.withoutChannel.loadFactor)),
        orDash(percentText(one.retained)),
        startText(one),
        orDash(placeText(one.at)),
        orDash(clarityText(one)),
      ]),
      note: limits,
    },
    {
      heading: 'Fatigue',
      columns: ['case', 'life / without channel', 'failure starts', 'at x, y, mm'],
      rows: entries.map(([name, { fatigue }]) => [
        name,
        orDash(ratioText(fatigue.ratio)),
        placeLabel(fatigue.place),
        orDash(placeText(fatigue.at)),
      ]),
      note: fatigueLimits,
    },
  ];
}

/** Both models' peaks; none where the design was not meshed. */
export function meshTables({ cases, meshed, difference }: DesignDocument): ReportTable[] {
  if (meshed === undefined || difference === undefined) return [];
  return [
    {
      heading: 'Check by the independent mesh',
      columns: ['case', 'peak, MPa', 'meshed, MPa', 'difference, %', "mesh's own error, %"],
      rows: Object.entries(cases).map(([name, { peak }]) => [
        name,
        peak.toFixed(2),
        meshed.cases[name]?.peak.toFixed(2) ?? '–',
        orDash(hundredths(difference.cases[name])),
        orDash(hundredths(meshed.cases[name]?.error)),
      ]),
    },
  ];
}

function hundredths(share: number | undefined): string | undefined {
  return share === undefined ? undefined : (100 * share).toFixed(2);
}
