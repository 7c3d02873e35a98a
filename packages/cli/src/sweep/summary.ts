import { placeLabel } from '@lumenfront/core';
import { type SweepFigure, sweepFigures } from './figure-list.js';
import type { CaseFigures } from './figures.js';

type Cell = string | number | undefined | null;

/** What stands in a column after those of the varied values; every heading states its unit. */
const columns: ReadonlyArray<readonly [heading: string, cell: (figures: CaseFigures) => Cell]> = [
  ['status', ({ status }) => statusText(status)],
  ['family', ({ design }) => design?.family],
  ...Object.values<SweepFigure>(sweepFigures).map(({ column, of }) => [column, of] as const),
  ['failure_starts', ({ design }) => design?.start && placeLabel(design.start.place)],
  ['crack_path', ({ design }) => design?.start?.crackPath],
  ['crack_meets_channel', ({ design }) => yesOrNo(design?.start?.crackMeets)],
  ['allow_MPa', ({ allow }) => allow],
  ['reference_area_mm2', ({ reference }) => reference?.area],
  ['reference_conductance_mm4', ({ reference }) => reference?.conductance],
  ['reference_peak_MPa', ({ reference }) => reference?.peak],
  ['designs', ({ front }) => (front.length === 0 ? undefined : front.length)],
  ['error', ({ error }) => error],
  ['case', (figures) => figures.case],
];

const yesOrNo = (value: boolean | undefined) => (value === undefined ? undefined : value ? 'yes' : 'no');

/** As summary and table say it. */
export const statusText = (status: CaseFigures['status']) => (status === 'unmet' ? 'cannot be met' : status);

/** One line per case under a header, in the order of the plan (RFC 4180, but for its line ends). */
export function summaryCsv(figures: readonly CaseFigures[]): string {
  const paths = Object.keys(figures[0]?.vary ?? {});
  const lines = [
    [...paths, ...columns.map(([heading]) => heading)],
    ...figures.map((one) => [
      ...paths.map((path) => valueText(one.vary[path])),
      ...columns.map(([, cell]) => String(cell(one) ?? '')),
    ]),
  ];
  return `${lines.map((cells) => cells.map(quote).join(',')).join('\n')}\n`;
}

/** A varied value in a cell or a label: texts as they are, lists as JSON. */
export function valueText(value: unknown): string {
  return typeof value === 'string' ? value : JSON.stringify(value);
}

/** Tables take what begins so for a formula, and would compute it: an apostrophe before it keeps it a text. */
const formula = /^[=+@\t\r-]/;

function quote(cell: string): string {
  const text = formula.test(cell) && !Number.isFinite(Number(cell)) ? `'${cell}` : cell;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
