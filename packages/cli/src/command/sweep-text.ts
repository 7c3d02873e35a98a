import { formatTable, type TableColumn } from '../show/index.js';
import { type CaseFigures, valueText } from '../sweep/index.js';
import { caution, timesText } from '../words/index.js';
import type { Terminal } from './terminal.js';

/** Rows that are shown; the summary has them all. */
const mostShown = 40;

const number = (value: number | undefined | null, digits: number) => value?.toFixed(digits);

const columns: ReadonlyArray<TableColumn & { readonly cell: (figures: CaseFigures) => string | undefined }> = [
  { heading: 'family', align: 'left', cell: ({ design }) => design?.family },
  { heading: 'area', unit: 'mm²', align: 'right', cell: ({ design }) => number(design?.area, 3) },
  {
    heading: 'area / reference',
    align: 'right',
    cell: ({ design, reference }) => design && reference && number(design.area / reference.area, 2),
  },
  {
    heading: 'flow / reference',
    align: 'right',
    cell: ({ design, reference }) => design && reference && timesText(design.conductance / reference.conductance),
  },
  { heading: 'peak', unit: 'MPa', align: 'right', cell: ({ design }) => number(design?.peak, 1) },
  { heading: 'allowed', unit: 'MPa', align: 'right', cell: ({ allow }) => number(allow, 1) },
  { heading: 'wall', unit: 'mm', align: 'right', cell: ({ design }) => number(design?.wall, 3) },
  { heading: 'least edge radius', unit: 'mm', align: 'right', cell: ({ design }) => number(design?.minEdgeRadius, 3) },
];

export interface SweepResult {
  readonly cases: number;
  readonly computed: number;
  readonly failed: number;
  readonly files: readonly string[];
  readonly figures: readonly CaseFigures[];
}

/** A sweep for people: what came of each case, and where it stands. */
export function sweepText(result: SweepResult, units: Readonly<Record<string, string>>, { width }: Terminal): string {
  const { cases, computed, failed, files, figures } = result;
  const shown = figures.slice(0, mostShown);
  const paths = Object.keys(figures[0]?.vary ?? {});
  const table = formatTable(
    [
      ...paths.map((path) => ({
        heading: path,
        align: 'left' as const,
        ...(units[path] === undefined ? {} : { unit: units[path] }),
      })),
      ...columns,
    ],
    shown.map((one) => [
      ...paths.map((path) => valueText(one.vary[path])),
      ...columns.map(({ cell }, i) => (one.error !== undefined && i === 0 ? 'failed' : cell(one))),
    ]),
    { width, keys: paths.length },
  );
  const errors = new Map(shown.flatMap(({ error, vary }) => (error === undefined ? [] : [[error, vary]])));
  return [
    table,
    ...(shown.length < cases ? [`the first ${shown.length} of ${cases} cases`] : []),
    ...[...errors].map(
      ([error, vary]) =>
        `${Object.entries(vary)
          .map(([path, value]) => `${path}=${valueText(value)}`)
          .join(' ')}: ${error}`,
    ),
    `${cases} cases, ${failed} of them failed; ${computed} run now, the others before`,
    ...files.map((file) => `wrote ${file}`),
    '',
    caution,
  ].join('\n');
}
