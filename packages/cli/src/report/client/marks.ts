/// <reference lib="dom" />
import type { PageChannel, PageData } from '../data.js';
import type { MakeElement } from './element.js';

type Place = readonly [x: number, y: number];

/** Returns a function that draws an arrow whose tip stands at a point of an edge: along its normal, from inside where there is room, or where it would leave the frame. */
export function peakArrow(
  make: MakeElement,
): (points: readonly Place[], tip: Place, text: string, frame: { width: number; height: number }) => HTMLElement {
  return (points, tip, text, frame) => {
    const distances = points.map(([x, y]) => Math.hypot(x - tip[0], y - tip[1]));
    const nearest = distances.indexOf(Math.min(...distances));
    const [before, after] = [points.at(nearest - 2)!, points[(nearest + 2) % points.length]!];
    const along = Math.hypot(after[0] - before[0], after[1] - before[1]) || 1;
    // Counter-clockwise in the section, so on the screen, where y points down, this one points into the channel.
    const inward: Place = [(after[1] - before[1]) / along, -(after[0] - before[0]) / along];
    const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
    const room = Math.min(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
    const long = room > 64 ? 30 : 22;
    const on = (side: 1 | -1, length: number, aside = 0): Place => [
      tip[0] + side * length * inward[0] - aside * inward[1],
      tip[1] + side * length * inward[1] + aside * inward[0],
    ];
    const outside = on(-1, long + 12);
    const fits = outside[0] > 16 && outside[0] < frame.width - 16 && outside[1] > 10 && outside[1] < frame.height - 10;
    const side = room > 64 || !fits ? 1 : -1;
    const at = (place: Place) => place.map((value) => value.toFixed(2)).join(' ');
    const [x, y] = on(side, long + 12);
    return make('g', { class: 'peak', 'data-tip': at(on(side, 4)) }, [
      make('path', { d: `M${at(on(side, long))}L${at(on(side, 12))}` }),
      make('path', { class: 'head', d: `M${at(on(side, 4))}L${at(on(side, 14, 5))}L${at(on(side, 14, -5))}Z` }),
      make('text', { x: x.toFixed(2), y: (y + 4).toFixed(2), 'text-anchor': 'middle' }, [text]),
    ]);
  };
}

/** Returns a function that draws what lies around a channel: filler, plies, openings. */
export function aroundChannels(
  make: MakeElement,
): (section: Pick<NonNullable<PageData['section']>, 'room' | 'layers' | 'openings'>) => HTMLElement[] {
  return ({ room, layers, openings = [] }) => [
    make('path', { class: 'filler', d: room }),
    ...layers.map(({ path, shade }) =>
      make('path', { class: 'layer', d: path, 'fill-opacity': (0.08 + 0.3 * shade).toFixed(3) }),
    ),
    ...openings.map((d) => make('path', { class: 'opening', d })),
  ];
}

/** A margin around channels, y downward. */
export function frameAround(channels: readonly PageChannel[]) {
  const all = channels.flatMap(({ outline, others = [] }) => [outline, ...others.map((other) => other.outline)].flat());
  const xs = all.map(([x]) => x);
  const ys = all.map(([, y]) => -y);
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  const margin = 0.2 * (Math.max(...xs) - left);
  return {
    left: left - margin,
    top: top - margin,
    width: Math.max(...xs) - left + 2 * margin,
    height: Math.max(...ys) - top + 2 * margin,
  };
}
