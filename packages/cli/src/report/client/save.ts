/// <reference lib="dom" />
import type { PageData } from '../data.js';
import type { MakeElement } from './element.js';

/** Returns a function that makes the buttons by which the files of a design are saved; they are made when asked for, in the page. */
export function saveFiles(
  make: MakeElement,
  { frames, designs }: PageData,
): (index: number, design: PageData['designs'][number], prefix?: string) => HTMLElement {
  const save = (name: string, text: string) => {
    const link = make('a', { download: name, href: URL.createObjectURL(new Blob([text], { type: 'text/plain' })) });
    link.click();
    URL.revokeObjectURL(link.getAttribute('href')!);
  };

  return (index, design, prefix = '') => {
    const { files } = design;
    const base = `${prefix}${designs[index]!.name.replace(' ', '-')}`;
    if (files === undefined) return make('p', { class: 'save' });
    const { vertices, curves } = files;
    const lines = (points: typeof vertices, name: string) =>
      points.map(([x, y]) => `${x.toFixed(6)},${y.toFixed(6)}${name}\n`).join('');
    const others = design.others ?? [];
    /** Another one of several channels: counter-clockwise too, from the image of the first point on. */
    const copy = (points: typeof vertices, { isMirrored, move: [xx, xy, yx, yy, x0, y0] }: (typeof others)[number]) =>
      (isMirrored ? [...points.slice(0, 1), ...points.slice(1).reverse()] : points).map(
        ([x, y]) => [xx * x + xy * y + x0, yx * x + yy * y + y0] as const,
      );
    const all = (points = vertices) => [points, ...others.map((other) => copy(points, other))];
    const svgPoint = ([x, y]: (typeof vertices)[number]) => `${Number(x.toFixed(6))} ${Number((-y).toFixed(6))}`;
    const chain = (points: typeof vertices) =>
      `M${svgPoint(points[0]!)}${points
        .map((_, i) => (i % 3 === 0 ? 'C' : ' ') + svgPoint(points[(i + 1) % points.length]!))
        .join('')}Z`;
    const entities = (points: typeof vertices) => points.map(([x, y]) => `10\n${x}\n20\n${y}`).join('\n');
    const csv = () =>
      others.length === 0
        ? `x_mm,y_mm\n${lines(vertices, '')}`
        : `x_mm,y_mm,channel\n${all()
            .map((points, k) => lines(points, `,${others.length > 1 ? k + 1 : k === 0 ? 'right' : 'left'}`))
            .join('')}`;
    const fill = (frame: string) =>
      frame
        .replaceAll('{{area}}', files.area)
        .replaceAll('{{perimeter}}', files.perimeter)
        .replaceAll('{{chordError}}', files.chordError);
    const figures = () => {
      const { family, parameters, area, conductance, peak, cases, wall, minEdgeRadius, strength } = design;
      return `${JSON.stringify({ ...(files.channel ?? { family, parameters }), area, conductance, peak, cases, wall, minEdgeRadius, strength }, null, 2)}\n`;
    };
    const kinds: [string, () => string][] = [
      ...(frames === undefined
        ? []
        : ([['SVG', () => fill(frames.svg).replace('{{path}}', all(curves).map(chain).join(''))]] as [
            string,
            () => string,
          ][])),
      ...(frames?.dxf === undefined
        ? []
        : ([
            [
              'DXF',
              () =>
                all().reduce(
                  (text, points, k) => text.replace(`{{vertices ${k}}}`, () => entities(points)),
                  fill(frames.dxf!).replaceAll('{{count}}', String(vertices.length)),
                ),
            ],
          ] as [string, () => string][])),
      ['CSV', csv],
      ['JSON', figures],
    ];
    return make('p', { class: 'save' }, [
      'save as ',
      ...kinds.map(([name, text]) => {
        const button = make('button', { type: 'button', 'data-save': name }, [name]);
        button.addEventListener('click', () => save(`${base}.${name.toLowerCase()}`, text()));
        return button;
      }),
    ]);
  };
}
