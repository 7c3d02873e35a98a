import type { CaseFigures } from './figures.js';

type Cell = string | number | undefined | null;

/** What stands in a column after those of the varied values; every heading states its unit. */
const columns: ReadonlyArray<readonly [heading: string, cell: (figures: CaseFigures) => Cell]> = [
  ['status', ({ error }) => (error === undefined ? 'done' : 'failed')],
  ['family', ({ design }) => design?.family],
  ['area_mm2', ({ design }) => design?.area],
  ['conductance_mm4', ({ design }) => design?.conductance],
  ['peak_MPa', ({ design }) => design?.peak],
  ['allow_MPa', ({ allow }) => allow],
  ['wall_mm', ({ design }) => design?.wall],
  ['min_edge_radius_mm', ({ design }) => design?.minEdgeRadius],
  ['reference_area_mm2', ({ reference }) => reference?.area],
  ['reference_conductance_mm4', ({ reference }) => reference?.conductance],
  ['reference_peak_MPa', ({ reference }) => reference?.peak],
  ['designs', ({ front }) => (front.length === 0 ? undefined : front.length)],
  ['error', ({ error }) => error],
  ['case', (figures) => figures.case],
];

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
