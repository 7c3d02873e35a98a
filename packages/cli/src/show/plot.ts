import { type Colour, paint } from './colour.js';
import { displayWidth } from './display-width.js';
import { axisTicks } from './ticks.js';

export interface PlotSeries {
  readonly name: string;
  /** One character: tells the series apart without colour. */
  readonly symbol: string;
  readonly colour?: Colour;
  readonly points: readonly { readonly x: number; readonly y: number }[];
}

export interface ScatterPlot {
  /** With unit: `area [mm2]`. */
  readonly xLabel: string;
  readonly yLabel: string;
  /** Later series are drawn over earlier ones. */
  readonly series: readonly PlotSeries[];
  /** A dashed line across, such as the allowed stress, drawn below the points. */
  readonly limit?: { readonly name: string; readonly y: number };
}

/**
 * A scatter plot in characters, for a terminal: y label above, x label and legend below.
 *
 * @param options.width widest line, in columns; at least 40 are taken
 * @param options.height rows of the plot itself, without axis and legend
 */
export function formatPlot(
  plot: ScatterPlot,
  options: { readonly width: number; readonly height: number; readonly colour: boolean },
): string {
  const series = plot.series.map((one) => ({ ...one, points: one.points.filter(isFinitePoint) }));
  const points = series.flatMap((one) => one.points);
  if (points.length === 0) return 'nothing to plot\n';
  const limits = plot.limit === undefined ? [] : [plot.limit.y];
  const y = axisTicks(...extent([...points.map((point) => point.y), ...limits]), 5);
  const x = axisTicks(...extent(points.map((point) => point.x)), 6);
  const margin = Math.max(...y.labels.map((label) => label.length)) + 1;
  const columns = Math.max(40, options.width) - margin - 2;
  const rows = options.height;
  const column = placement(x.values, columns);
  const row = (value: number) => rows - 1 - placement(y.values, rows)(value);

  const cells = Array.from({ length: rows }, () => Array<string>(columns).fill(' '));
  if (plot.limit) cells[row(plot.limit.y)] = Array.from({ length: columns }, (_, i) => (i % 2 === 0 ? '-' : ' '));
  for (const { symbol, colour, points } of series)
    for (const point of points)
      cells[row(point.y)]![column(point.x)] = options.colour && colour ? paint(symbol, colour) : symbol;

  const labelOfRow = new Map(y.values.map((value, i) => [row(value), y.labels[i]!]));
  const body = cells.map((line, i) => {
    const label = labelOfRow.get(i);
    return `${(label ?? '').padStart(margin - 1)} ${label === undefined ? '|' : '+'}${line.join('')}`.trimEnd();
  });
  const marks = Array<string>(columns).fill('-');
  for (const value of x.values) marks[column(value)] = '+';
  return [
    plot.yLabel,
    ...body,
    `${' '.repeat(margin + 1)}${marks.join('')}`,
    xLabels(x, column, margin + 1),
    centred(plot.xLabel, margin + 1, columns),
    ...legend(series, plot.limit, options),
    '',
  ].join('\n');
}

/** A design that could not be evaluated has no place in a plot. */
const isFinitePoint = (point: { readonly x: number; readonly y: number }) =>
  Number.isFinite(point.x) && Number.isFinite(point.y);

const extent = (values: readonly number[]): [number, number] => [Math.min(...values), Math.max(...values)];

/** The cell of a value among `count` cells, whose first and last hold the ends of the axis. */
function placement(ticks: readonly number[], count: number): (value: number) => number {
  const least = ticks[0]!;
  const most = ticks.at(-1)!;
  return (value) => Math.min(count - 1, Math.max(0, Math.round(((value - least) / (most - least)) * (count - 1))));
}

/** Labels centred below their marks, those left out that would touch the one before. */
function xLabels(x: ReturnType<typeof axisTicks>, column: (value: number) => number, margin: number): string {
  let line = '';
  x.labels.forEach((label, i) => {
    const start = margin + column(x.values[i]!) - Math.floor(label.length / 2);
    if (line === '' || start > line.length) line = line.padEnd(start) + label;
  });
  return line;
}

const centred = (text: string, margin: number, columns: number) =>
  ' '.repeat(margin + Math.max(0, Math.floor((columns - displayWidth(text)) / 2))) + text;

/** Symbols and names, as many to a line as fit. */
function legend(
  series: readonly PlotSeries[],
  limit: ScatterPlot['limit'],
  options: { readonly width: number; readonly colour: boolean },
): string[] {
  const entries = series
    .filter((one) => one.points.length > 0)
    .map(({ symbol, name, colour }) => ({
      text: `${options.colour && colour ? paint(symbol, colour) : symbol} ${name}`,
      width: displayWidth(name) + 2,
    }));
  if (limit) entries.push({ text: `- - ${limit.name}`, width: displayWidth(limit.name) + 4 });
  const lines: string[] = [];
  let used = Number.POSITIVE_INFINITY;
  for (const { text, width } of entries) {
    if (used + 3 + width > options.width) {
      lines.push(`  ${text}`);
      used = 2 + width;
    } else {
      lines[lines.length - 1] += `   ${text}`;
      used += 3 + width;
    }
  }
  return lines;
}
