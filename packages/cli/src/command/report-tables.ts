import {
  type CrackGrowth,
  type DesignDocument,
  placeLabel,
  type RepairReport,
  type StrengthReport,
} from '@lumenfront/core';
import type { ReportTable } from '../report/index.js';
import { clarityText, repairedPlaces, repairNotes, startText } from '../words/index.js';
import { crackLimits, crackRows, cracksText, leastCrackText } from './crack-text.js';
import { factorText, fatigueLimits, percentText, placeText, ratioText } from './strength-text.js';

const orDash = (text: string | undefined) => text ?? '–';

/** What a design leaves of the joint, and for how long. */
export function strengthTables({ cases }: StrengthReport, limits: string): ReportTable[] {
  const entries = Object.entries(cases);
  const besideKnown = entries.some(([, { beside }]) => beside !== undefined);
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
        ...(besideKnown ? ['at the edge of the known outline, MPa'] : []),
      ],
      rows: entries.map(([name, one]) => [
        name,
        orDash(factorText(one.loadFactor)),
        orDash(factorText(one.withoutChannel.loadFactor)),
        orDash(percentText(one.retained)),
        startText(one),
        orDash(placeText(one.at)),
        orDash(clarityText(one)),
        ...(besideKnown ? [orDash(one.beside?.stress.toFixed(2))] : []),
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

/** What repair by each agent gives back, where the joint fails first and of every place by itself. */
export function repairTables(repair: RepairReport | undefined): ReportTable[] {
  if (repair === undefined) return [];
  const percent = (share: number | undefined) => (share === undefined ? '–' : (100 * share).toFixed(0));
  const strength = (value: number | undefined, share: number | undefined) =>
    value === undefined ? 'no data' : `${Number(value.toPrecision(3))} (${percent(share)} %)`;
  const { agents, rows } = repairedPlaces(repair);
  return [
    {
      heading: `Repair where the joint fails first: ${placeLabel(repair.place)}, case ${repair.case}`,
      columns: [
        'agent',
        'tension, MPa (of sound)',
        'shear, MPa (of sound)',
        'load factor',
        'of the sound joint, %',
        `at 10^${Math.round(Math.log10(repair.cycles))} cycles, %`,
      ],
      rows: repair.agents.map((one) => [
        one.agent,
        strength(one.tensileStrength, one.tensileShare),
        strength(one.shearStrength, one.shearShare),
        one.loadFactor === undefined ? '–' : orDash(factorText(one.loadFactor)),
        percent(one.share),
        percent(one.cycledShare),
      ]),
      ...(agents.length > 0 ? {} : { note: repairNotes(repair).join(' ') }),
    },
    ...(agents.length === 0
      ? []
      : [
          {
            heading: `Load factor of each place, sound and repaired by itself, case ${repair.case}`,
            columns: ['place', 'sound', ...agents],
            rows: rows.map(([place, ...factors]) => [place, ...factors.map((factor) => orDash(factorText(factor)))]),
            note: `${repairNotes(repair).join(' ')} Whether an agent fills the damage before it gels: lumenfront deliver.`,
          },
        ]),
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

/** Cracks that run out of the pocket, as the check has them. */
export function crackTables(growth: CrackGrowth | undefined): ReportTable[] {
  if (growth === undefined) return [];
  const heading = cracksText(growth);
  return [
    {
      heading: heading.charAt(0).toUpperCase() + heading.slice(1),
      columns: [
        ...['case', 'out of the', 'above ply', 'between', 'G_I, N/mm', 'G_II, N/mm'],
        ...["mesh's own error, %", 'grows at load factor'],
      ],
      rows: crackRows(growth).map((row) => row.map(orDash)),
      note: `${leastCrackText(growth)}. ${crackLimits}`,
    },
  ];
}

function hundredths(share: number | undefined): string | undefined {
  return share === undefined ? undefined : (100 * share).toFixed(2);
}
