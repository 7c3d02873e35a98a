/// <reference lib="dom" />
import type { PageData } from '../data.js';
import type { MakeElement } from './element.js';
import type { frontLines } from './lines.js';

/** A front in a given width: the points of its designs, and where they stand. */
interface Drawing {
  readonly chart: HTMLElement;
  readonly points: HTMLElement[];
  readonly places: ReadonlyArray<readonly [x: number, y: number]>;
  /** Points of lines, and what they are. */
  readonly told: ReadonlyArray<{ readonly at: readonly [x: number, y: number]; readonly caption: string }>;
}

/** Returns a function that draws a front: axes, limit, reference and designs. */
export function frontDrawing(
  make: MakeElement,
  data: PageData,
  linesOf: ReturnType<typeof frontLines>,
): (hostWidth: number) => Drawing {
  const scale = (values: number[], from: number, to: number) => {
    const [least, most] = values.length > 0 ? [Math.min(...values), Math.max(...values)] : [0, 1];
    const room = most > least ? 0.06 * (most - least) : 0.1 * most || 1;
    const [low, high] = [Math.max(0, least - room), most + room];
    const power = 10 ** Math.floor(Math.log10((high - low) / 4));
    const step = power * [5, 2, 1].find((factor) => factor * power <= (high - low) / 4)!;
    const first = Math.ceil(low / step);
    const count = Math.floor(high / step) - first + 1;
    return {
      at: (value: number) => from + ((value - low) / (high - low)) * (to - from),
      ticks: Array.from({ length: count }, (_, i) => Number(((first + i) * step).toPrecision(6))),
    };
  };

  return (hostWidth) => {
    const width = Math.max(240, hostWidth);
    const height = Math.round(Math.min(460, Math.max(300, 0.7 * width)));
    const [left, right, top, bottom] = [52, width - 14, 14, height - 50];
    const references = data.reference ? [data.reference] : [];
    const all = [...data.designs, ...data.others, ...references, ...data.lines.flatMap(({ points }) => points)];
    const across = scale(
      all.map(({ place }) => place[0]),
      left,
      right,
    );
    const up = scale(
      [...all.map(({ place }) => place[1]), ...(data.limit === undefined ? [] : [data.limit])],
      bottom,
      top,
    );

    const placeOf = ({ place: [x, y] }: { readonly place: readonly [number, number] }) =>
      [across.at(x), up.at(y)] as const;

    const backdrop = [
      ...across.ticks.flatMap((value) => [
        make('line', { class: 'grid', x1: across.at(value), x2: across.at(value), y1: top, y2: bottom }),
        make('text', { x: across.at(value), y: bottom + 18, 'text-anchor': 'middle' }, [String(value)]),
      ]),
      ...up.ticks.flatMap((value) => [
        make('line', { class: 'grid', x1: left, x2: right, y1: up.at(value), y2: up.at(value) }),
        make('text', { x: left - 8, y: up.at(value) + 4, 'text-anchor': 'end' }, [String(value)]),
      ]),
      make('path', { class: 'axis', d: `M${left} ${top}V${bottom}H${right}` }),
      make('text', { x: (left + right) / 2, y: height - 10, 'text-anchor': 'middle' }, [data.axes.x]),
      make('text', { transform: `translate(13 ${(top + bottom) / 2}) rotate(-90)`, 'text-anchor': 'middle' }, [
        data.axes.y,
      ]),
    ];
    if (data.limit !== undefined)
      backdrop.push(
        make('line', { class: 'allow', x1: left, x2: right, y1: up.at(data.limit), y2: up.at(data.limit) }),
      );
    for (const { family, place } of data.others) {
      const { path, tone } = data.signs[family]!;
      const transform = `translate(${placeOf({ place }).join(' ')}) scale(0.62)`;
      backdrop.push(make('path', { class: `sign own tone${tone}`, d: path, transform }));
    }
    backdrop.push(...linesOf(placeOf, right));
    for (const point of references)
      backdrop.push(
        make('path', {
          class: 'reference',
          d: 'M-7-2.5h4.5v-4.5h5v4.5h4.5v5h-4.5v4.5h-5v-4.5h-4.5Z',
          transform: `translate(${placeOf(point).join(' ')})`,
        }),
      );
    if (data.designs.length === 0)
      backdrop.push(
        make('text', { x: (left + right) / 2, y: top + 40, 'text-anchor': 'middle' }, ['no design meets the brief']),
      );

    const places = data.designs.map(placeOf);
    const points = data.designs.map(({ family, caption, strength }, index) => {
      const { path, tone } = data.signs[family]!;
      const fails = strength !== undefined && strength.loadFactor < 1;
      const transform = `translate(${places[index]!.join(' ')})`;
      return make('g', { class: 'point', role: 'radio', 'aria-label': caption, transform }, [
        make('circle', { class: 'halo', r: 11 }),
        make('path', { class: `sign tone${tone}${fails ? ' fails' : ''}`, d: path }),
      ]);
    });
    const group = make('g', { role: 'radiogroup', 'aria-label': 'designs of the front' }, points);
    const chart = make('svg', { width, height, viewBox: `0 0 ${width} ${height}` }, [...backdrop, group]);
    const told = data.lines.flatMap(({ points }) =>
      points.map((point) => ({ at: placeOf(point), caption: point.caption })),
    );
    return { chart, points, places, told };
  };
}
