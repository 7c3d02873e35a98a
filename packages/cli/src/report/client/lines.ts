/// <reference lib="dom" />
import type { PageData } from '../data.js';
import type { MakeElement } from './element.js';

type Place = readonly [x: number, y: number];

/** Returns a function that draws the fronts of choices as lines with their numbers, which stay left of `right`. */
export function frontLines(
  make: MakeElement,
  { lines }: PageData,
): (placeOf: (point: { readonly place: Place }) => Place, right: number) => HTMLElement[] {
  const dashes = ['7 4', '2 4', '9 3 2 3', '1 6', '12 5'];
  return (placeOf, right) =>
    lines.flatMap(({ points, shown }, line) => {
      if (points.length === 0) return [];
      const places = points.map(placeOf);
      const [x, y] = places.at(-1)!;
      return [
        make('path', {
          class: `line${shown ? ' shown' : ''}`,
          d: `M${places.map((place) => place.map((value) => value.toFixed(1)).join(' ')).join('L')}`,
          ...(shown ? {} : { 'stroke-dasharray': dashes[line % dashes.length]! }),
        }),
        make('text', { class: 'line-name', x: Math.min(x + 6, right - 8), y: y - 6 }, [String(line + 1)]),
      ];
    });
}
