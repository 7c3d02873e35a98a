/// <reference lib="dom" />
import type { PageData, ReportDesign } from '../data.js';
import type { MakeElement } from './element.js';

/** Returns a function that draws a design in its room, where there is one, and enlarged with the stress along its edge. */
export function channelFigures(make: MakeElement, { ramp, room }: PageData): (design: ReportDesign) => HTMLElement {
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
    const margin = 0.06 * Math.max(width, height);
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
            stroke: ramp[Math.round(share * (ramp.length - 1))]!,
          }),
        );
      });
    }
    return make(
      'svg',
      {
        viewBox: `${left - margin} ${top - margin} ${width + 2 * margin} ${height + 2 * margin}`,
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

  return (design) =>
    make('div', { class: 'figures' }, [
      ...(room === undefined ? [] : [figure(inRoom(design, room), [`In the ${room.name}`])]),
      figure(enlarged(design), edgeCaption(design)),
    ]);
}
