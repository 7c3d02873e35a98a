/// <reference lib="dom" />
import type { PageChannel, PageData } from '../data.js';
import type { MakeElement } from './element.js';

type Cell = string | number;

/** Returns a function that makes a table; on a narrow screen its rows become blocks, each cell with the name of its column. */
export function tableMaker(
  make: MakeElement,
): (columns: readonly string[], rows: ReadonlyArray<readonly Cell[]>) => HTMLElement {
  const attributes = (cell: Cell, column: number, columns: readonly string[]): Record<string, string> => {
    if (column === 0) return { scope: 'row' };
    return { 'data-column': columns[column]!, class: /[a-z]{3}/.test(String(cell)) ? 'words' : '' };
  };
  return (columns, rows) =>
    make('table', { class: 'blocks' }, [
      make('thead', {}, [
        make(
          'tr',
          {},
          columns.map((column) => make('th', { scope: 'col' }, [column])),
        ),
      ]),
      make(
        'tbody',
        {},
        rows.map((row) =>
          make(
            'tr',
            {},
            row.map((cell, i) => make(i === 0 ? 'th' : 'td', attributes(cell, i, columns), [String(cell)])),
          ),
        ),
      ),
    ]);
}

/** Returns a function that makes all tables of a channel: edge stress by case, its own tables, its parameters folded. */
export function channelTables(
  make: MakeElement,
  table: ReturnType<typeof tableMaker>,
  { units }: PageData,
): (channel: PageChannel) => HTMLElement[] {
  const block = (heading: string, children: ReadonlyArray<Node | string>) =>
    make('div', { class: 'block' }, [make('h3', {}, [heading]), ...children]);

  return ({ cases, tables = [], parameters }) => [
    block('Edge stress', [
      table(
        ['case', 'peak, MPa', 'at x, y, mm', 'least, MPa'],
        Object.entries(cases).map(([name, { peak, at, least }]) => [
          name,
          peak.toFixed(1),
          at.map((mm) => mm.toFixed(3)).join(', '),
          least.toFixed(1),
        ]),
      ),
    ]),
    ...tables.map(({ heading, columns, rows, note }) =>
      block(heading, [table(columns, rows), ...(note === undefined ? [] : [make('p', { class: 'note' }, [note])])]),
    ),
    make('details', { class: 'block' }, [
      make('summary', {}, [`${Object.keys(parameters).length} parameters of the outline`]),
      table(
        ['parameter', 'value', 'unit'],
        Object.entries(parameters).map(([name, value]) => [name, Number(value.toPrecision(6)), units[name] ?? '1']),
      ),
    ]),
  ];
}
