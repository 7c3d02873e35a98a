/// <reference lib="dom" />
import type { PageData } from '../data.js';
import type { MakeElement } from './element.js';
import type { channelFigures } from './figures.js';

/** Returns a function that fills `host` with all that is known of one design. */
export function designPanel(
  make: MakeElement,
  host: HTMLElement,
  data: PageData,
  figuresOf: ReturnType<typeof channelFigures>,
): (index: number) => void {
  const table = (columns: readonly string[], rows: ReadonlyArray<ReadonlyArray<string | number>>, label: string) =>
    make('div', { class: 'scroll', tabindex: 0, role: 'region', 'aria-label': label }, [
      make('table', {}, [
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
              row.map((cell, i) => make(i === 0 ? 'th' : 'td', cellAttributes(cell, i), [String(cell)])),
            ),
          ),
        ),
      ]),
    ]);

  const cellAttributes = (cell: string | number, column: number): Record<string, string> => {
    if (column === 0) return { scope: 'row' };
    return /\d/.test(String(cell)) ? {} : { class: 'words' };
  };

  return (index) => {
    const design = data.designs[index];
    if (design === undefined) return;
    const facts: [string, string][] = [
      ['family', design.family],
      ['area', `${design.area.toPrecision(4)} mm²`],
      ['conductance', `${design.conductance.toPrecision(4)} mm⁴`],
      ['peak, worst case', `${design.peak.toFixed(1)} MPa`],
      ['least wall', design.wall === undefined ? 'no border' : `${design.wall.toFixed(3)} mm`],
      ['least edge radius', `${design.minEdgeRadius.toFixed(3)} mm`],
    ];
    if (data.reference !== undefined) {
      const { conductance } = data.reference;
      facts.push(
        ['area against reference', `${(design.area / data.reference.area).toFixed(2)} times`],
        ['peak against reference', `${(100 * (design.peak / data.reference.peak - 1)).toFixed(1)} %`],
      );
      if (conductance !== undefined)
        facts.push(['flow against reference', `${Number((design.conductance / conductance).toPrecision(3))} times`]);
    }
    host.replaceChildren(
      figuresOf(design),
      make(
        'dl',
        { class: 'facts' },
        facts.map(([name, value]) => make('div', {}, [make('dt', {}, [name]), make('dd', {}, [value])])),
      ),
      make('h3', {}, ['Edge stress by case']),
      table(
        ['case', 'peak, MPa', 'at x, y, mm', 'least, MPa'],
        Object.entries(design.cases).map(([name, { peak, at, least }]) => [
          name,
          peak.toFixed(1),
          at.map((mm) => mm.toFixed(3)).join(', '),
          least.toFixed(1),
        ]),
        'edge stress by case',
      ),
      ...(design.tables ?? []).flatMap(({ heading, columns, rows, note }) => [
        make('h3', {}, [heading]),
        table(columns, rows, heading),
        ...(note === undefined ? [] : [make('p', { class: 'note' }, [note])]),
      ]),
      make('h3', {}, ['Parameters']),
      table(
        ['parameter', 'value', 'unit'],
        Object.entries(design.parameters).map(([name, { value, unit }]) => [name, Number(value.toPrecision(6)), unit]),
        'parameters',
      ),
    );
  };
}
