import { displayWidth, pad } from './display-width.js';

export interface TableColumn {
  /** Broken at blanks where that makes the column narrower. */
  readonly heading: string;
  /** Stands in brackets below the heading; none for words and pure numbers. */
  readonly unit?: string;
  /** Words left, numbers right. */
  readonly align: 'left' | 'right';
}

export interface TableOptions {
  /** Widest line, in columns of the terminal. */
  readonly width: number;
  /** So many columns from the left name a row and are repeated where a table is too wide for one block. */
  readonly keys: number;
}

/**
 * A plain-text table, two blanks between columns. One that is wider than the terminal is broken between columns into blocks, one
 * below the other, each with the key columns. Only a single column that is too wide by itself makes a longer line.
 *
 * @param rows one cell per column; `undefined` for what does not apply
 */
export function formatTable(
  columns: readonly TableColumn[],
  rows: readonly (readonly (string | undefined)[])[],
  options: TableOptions,
): string {
  const withUnits = columns.some((column) => column.unit !== undefined);
  const blocks = columns.map((column, i) => {
    const cells = rows.map((row) => row[i] ?? '-');
    return layOut(column, cells, withUnits);
  });
  const keys = blocks.slice(0, options.keys);
  const parts: LaidOut[][] = [];
  let part = keys;
  for (const block of blocks.slice(options.keys)) {
    if (part.length > keys.length && lineWidth([...part, block]) > options.width) {
      parts.push(part);
      part = keys;
    }
    part = [...part, block];
  }
  parts.push(part);
  return parts.map(formatBlock).join('\n');
}

/** A column, ready to print. */
interface LaidOut {
  readonly head: readonly string[];
  readonly cells: readonly string[];
  readonly width: number;
  readonly align: 'left' | 'right';
}

function layOut(column: TableColumn, cells: readonly string[], withUnits: boolean): LaidOut {
  const words = column.heading.split(' ');
  const least = Math.max(...[...words, ...cells].map(displayWidth));
  const head: string[] = [];
  for (const word of words) {
    const joined = head.length > 0 ? `${head.at(-1)} ${word}` : word;
    if (head.length > 0 && displayWidth(joined) <= least) head[head.length - 1] = joined;
    else head.push(word);
  }
  // Units have a line of their own, empty in a column that has none.
  if (withUnits) head.push(column.unit === undefined ? '' : `[${column.unit}]`);
  return { head, cells, width: Math.max(...[...head, ...cells].map(displayWidth)), align: column.align };
}

const gap = '  ';

const lineWidth = (columns: readonly LaidOut[]) =>
  columns.reduce((sum, column) => sum + column.width, gap.length * (columns.length - 1));

function formatBlock(columns: readonly LaidOut[]): string {
  const headLines = Math.max(...columns.map((column) => column.head.length));
  const line = (text: (column: LaidOut) => string) =>
    `${columns.map((column) => pad(text(column), column.width, column.align)).join(gap)}`.trimEnd();
  // Headings end at the same line; the line of units is left out where no column of the block has one.
  const head = Array.from({ length: headLines }, (_, i) =>
    line((column) => column.head[i - headLines + column.head.length] ?? ''),
  ).filter((text) => text !== '');
  const rule = columns.map((column) => '-'.repeat(column.width)).join(gap);
  const body = columns[0]!.cells.map((_, i) => line((column) => column.cells[i]!));
  return `${[...head, rule, ...body].join('\n')}\n`;
}
