import { caution } from '../caution.js';
import { formatTable, type TableColumn } from '../show/index.js';
import {
  type CaseFigures,
  type SweepFigure,
  type SweepFigureName,
  statusText,
  sweepFigures,
  valueText,
} from '../sweep/index.js';
import { startText, timesText } from '../words/index.js';
import type { Terminal } from './terminal.js';

/** Rows that are shown; the summary has them all. */
const mostShown = 40;

const number = (value: number | undefined | null, digits: number) => value?.toFixed(digits);

const columns: ReadonlyArray<TableColumn & { readonly cell: (figures: CaseFigures) => string | undefined }> = [
  {
    heading: 'family',
    align: 'left',
    cell: ({ status, design }) => (status === 'done' ? design?.family : statusText(status)),
  },
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
  { heading: 'failure starts', align: 'left', cell: ({ design }) => design?.start && startText(design.start) },
  ...(
    ['strength-retained', 'load-factor', 'clarity', 'least-peak', 'locally-optimal', 'wall', 'edge-radius'] as const
  ).map(columnOf),
];

function columnOf(name: SweepFigureName) {
  const { title, unit, of, digits }: SweepFigure = sweepFigures[name];
  return {
    ...{ heading: title, align: 'right' as const, ...(unit === undefined ? {} : { unit }) },
    cell: (figures: CaseFigures) => number(of(figures), digits),
  };
}

export interface SweepResult {
  readonly cases: number;
  readonly computed: number;
  readonly unmet: number;
  readonly failed: number;
  readonly files: readonly string[];
  readonly figures: readonly CaseFigures[];
}

/** A sweep for people: what came of each case, and where it stands. */
export function sweepText(result: SweepResult, units: Readonly<Record<string, string>>, { width }: Terminal): string {
  const { cases, computed, unmet, failed, files, figures } = result;
  const shown = figures.slice(0, mostShown);
  const paths = Object.keys(figures[0]?.vary ?? {});
  // A column that no case has says nothing.
  const told = columns.filter(({ cell }) => shown.some((one) => cell(one) !== undefined));
  const table = formatTable(
    [
      ...paths.map((path) => ({
        heading: path,
        align: 'left' as const,
        ...(units[path] === undefined ? {} : { unit: units[path] }),
      })),
      ...told,
    ],
    shown.map((one) => [...paths.map((path) => valueText(one.vary[path])), ...told.map(({ cell }) => cell(one))]),
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
    `${cases} cases${unmet > 0 ? `, ${unmet} of them cannot be met` : ''}, ${failed} failed; ${computed} run now, the others before`,
    ...files.map((file) => `wrote ${file}`),
    '',
    caution,
  ].join('\n');
}
