/// <reference lib="dom" />
import type { PageData, ReportDesign } from '../data.js';
import type { MakeElement } from './element.js';

/** Returns a function that fills `host` with all that is known of one design. */
export function designPanel(make: MakeElement, host: HTMLElement, data: PageData): (index: number) => void {
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

  // y points down on the screen.
  const pathOf = (points: ReportDesign['outline']) => `M${points.map(([x, y]) => `${x} ${-y}`).join('L')}Z`;

  const inRoom = (design: ReportDesign, { name, path, box }: NonNullable<PageData['room']>) =>
    make('svg', { viewBox: box, role: 'img', 'aria-label': `the channel in its ${name}` }, [
      make('path', { class: 'filler', d: path }),
      make('path', { class: 'channel', d: pathOf(design.outline) }),
    ]);

  const enlarged = ({ outline, edge }: ReportDesign) => {
    const [xs, ys] = [outline.map(([x]) => x), outline.map(([, y]) => -y)];
    const [left, top] = [Math.min(...xs), Math.min(...ys)];
    const [width, height] = [Math.max(...xs) - left, Math.max(...ys) - top];
    const room = 0.06 * Math.max(width, height);
    const strokes = [make('path', { class: 'channel', d: pathOf(outline) })];
    if (edge !== undefined) {
      const [least, most] = [Math.min(...edge.hoop), Math.max(...edge.hoop)];
      strokes.push(make('path', { class: 'edge-back', d: pathOf(outline) }));
      outline.forEach(([x, y], i) => {
        const next = (i + 1) % outline.length;
        const share = ((edge.hoop[i]! + edge.hoop[next]!) / 2 - least) / (most - least || 1);
        strokes.push(
          make('path', {
            class: 'edge',
            d: `M${x} ${-y}L${outline[next]![0]} ${-outline[next]![1]}`,
            stroke: data.ramp[Math.round(share * (data.ramp.length - 1))]!,
          }),
        );
      });
    }
    return make(
      'svg',
      {
        viewBox: `${left - room} ${top - room} ${width + 2 * room} ${height + 2 * room}`,
        role: 'img',
        'aria-label': 'the channel, enlarged',
      },
      strokes,
    );
  };

  const figure = (drawing: HTMLElement, caption: ReadonlyArray<Node | string>) =>
    make('figure', {}, [drawing, make('figcaption', {}, caption)]);

  const edgeCaption = ({ outline, edge }: ReportDesign): ReadonlyArray<Node | string> => {
    const xs = outline.map(([x]) => x);
    const size = `${(Math.max(...xs) - Math.min(...xs)).toFixed(2)} mm wide`;
    if (edge === undefined) return [`Enlarged: ${size}`];
    return [
      `Enlarged: ${size}; hoop stress in ${edge.caseName}, MPa`,
      make('span', { class: 'ramp' }, [
        make('span', {}, [Math.min(...edge.hoop).toFixed(0)]),
        make('span', { class: 'bar', 'aria-hidden': 'true' }),
        make('span', {}, [Math.max(...edge.hoop).toFixed(0)]),
      ]),
    ];
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
      make('div', { class: 'figures' }, [
        ...(data.room === undefined ? [] : [figure(inRoom(design, data.room), [`In the ${data.room.name}`])]),
        figure(enlarged(design), edgeCaption(design)),
      ]),
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
