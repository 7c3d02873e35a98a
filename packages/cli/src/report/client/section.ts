/// <reference lib="dom" />
import type { PageChannel, PageData } from '../data.js';
import type { MakeElement } from './element.js';

/** A channel, the case whose stress is shown, and the outline of another one for comparison. */
export interface SectionView {
  readonly channel: PageChannel;
  readonly caseName: string;
  readonly beside?: PageChannel;
}

/** Returns a function that draws what is around a channel, enlarged, with the stress along its edge, in a given width. */
export function sectionDrawing(
  make: MakeElement,
  { section, scale, ramp }: PageData,
): (view: SectionView, hostWidth: number) => HTMLElement {
  type Place = readonly [x: number, y: number];
  const far = 420;

  const boxOf = (channels: readonly PageChannel[]) => {
    const all = channels.flatMap(({ outline, others = [] }) =>
      [outline, ...others.map((other) => other.outline)].flat(),
    );
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
  };

  const colourOf = (stress: number) => {
    const share = Math.min(1, Math.max(0, (stress - scale.low) / (scale.high - scale.low)));
    return ramp[Math.round(share * (ramp.length - 1))]!;
  };

  /** An arrow whose tip stands at a point of the edge: along its normal, from inside where there is room, or where it would leave the frame. */
  const arrow = (points: readonly Place[], tip: Place, text: string, frame: { width: number; height: number }) => {
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

  return ({ channel, caseName, beside }, hostWidth) => {
    const box = section?.closeUp ?? boxOf([channel, ...(beside === undefined ? [] : [beside])]);
    const size = Math.min(hostWidth / box.width, far / box.height);
    const [width, height] = [size * box.width, size * box.height];
    const place = ([x, y]: Place): Place => [size * (x - box.left), size * (-y - box.top)];
    const pathOf = (points: readonly Place[]) =>
      `M${points.map((point) => point.map((value) => value.toFixed(2)).join(' ')).join('L')}Z`;
    const points = channel.outline.map(place);
    /** Every channel's edge, with the stress along it. */
    const edges = [
      { points, hoop: channel.edge?.hoop[caseName] },
      ...(channel.others ?? []).map(({ outline, hoop }) => ({ points: outline.map(place), hoop: hoop[caseName] })),
    ];
    const { peak, at } = channel.cases[caseName] ?? {};
    const failure = channel.strength?.cases[caseName];

    const marks: HTMLElement[] = [];
    if (section !== undefined) {
      const around = `scale(${size}) translate(${-box.left} ${-box.top})`;
      marks.push(
        make('g', { class: 'section', transform: around }, [
          make('path', { class: 'filler', d: (channel.section ?? section).room }),
          ...(channel.section ?? section).layers.map(({ path, shade }) =>
            make('path', { class: 'layer', d: path, 'fill-opacity': (0.08 + 0.3 * shade).toFixed(3) }),
          ),
          ...((channel.section ?? section).openings ?? []).map((d) => make('path', { class: 'opening', d })),
        ]),
      );
    }
    for (const { points, hoop } of edges) {
      marks.push(make('path', { class: 'channel', d: pathOf(points) }));
      if (hoop === undefined) continue;
      marks.push(make('path', { class: 'edge-back', d: pathOf(points) }));
      points.forEach((point, i) => {
        const next = (i + 1) % points.length;
        marks.push(
          make('path', {
            class: 'edge',
            d: `M${point.map((v) => v.toFixed(2)).join(' ')}L${points[next]!.map((v) => v.toFixed(2)).join(' ')}`,
            stroke: colourOf((hoop[i]! + hoop[next]!) / 2),
          }),
        );
      });
    }
    if (beside !== undefined)
      for (const outline of [beside.outline, ...(beside.others ?? []).map((other) => other.outline)])
        marks.push(make('path', { class: 'beside', d: pathOf(outline.map(place)) }));
    if (peak !== undefined && at !== undefined) {
      const tip = place(at);
      const away = (points: readonly Place[]) =>
        Math.min(...points.map(([x, y]) => Math.hypot(x - tip[0], y - tip[1])));
      const [nearest] = edges.map(({ points }) => points).sort((a, b) => away(a) - away(b));
      marks.push(arrow(nearest!, tip, peak.toFixed(1), { width, height }));
    }
    if (failure !== undefined) {
      const [x, y] = place(failure.at);
      marks.push(
        make('g', { class: 'failure', transform: `translate(${x.toFixed(2)} ${y.toFixed(2)})` }, [
          make('circle', { r: 6 }),
          make('path', { d: 'M-4.2-4.2L4.2 4.2M-4.2 4.2L4.2-4.2' }),
        ]),
      );
    }
    const step = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10].find((mm) => mm * size >= 36) ?? 20;
    marks.push(
      make('path', { class: 'ruler', d: `M12 ${height - 16}v6h${(step * size).toFixed(2)}v-6` }),
      make('text', { x: 18 + step * size, y: height - 9 }, [`${step} mm`]),
    );
    return make(
      'svg',
      {
        ...{
          width: width.toFixed(1),
          height: height.toFixed(1),
          viewBox: `0 0 ${width.toFixed(1)} ${height.toFixed(1)}`,
        },
        ...{ role: 'img', 'aria-label': `${channel.name} in the joint, stress in ${caseName}` },
      },
      marks,
    );
  };
}

/** Returns a function that draws the whole section with a channel in it. */
export function overviewDrawing(
  make: MakeElement,
  { section }: PageData,
): (channel: PageChannel) => HTMLElement | undefined {
  return ({ name, outline, others = [], section: own }) => {
    if (section === undefined) return undefined;
    const { whole, closeUp, turn } = section;
    const { room, layers, openings = [] } = own ?? section;
    return make(
      'svg',
      {
        class: 'overview',
        viewBox: `${whole.left} ${whole.top} ${whole.width} ${whole.height}`,
        ...{ role: 'img', 'aria-label': `the whole section with ${name}` },
      },
      [
        make('g', turn === undefined ? {} : { transform: turn }, [
          make('path', { class: 'filler', d: room }),
          ...layers.map(({ path, shade }) =>
            make('path', { class: 'layer', d: path, 'fill-opacity': (0.08 + 0.3 * shade).toFixed(3) }),
          ),
          ...openings.map((d) => make('path', { class: 'opening', d })),
          ...[outline, ...others.map((other) => other.outline)].map((edge) =>
            make('path', { class: 'channel', d: `M${edge.map(([x, y]) => `${x} ${-y}`).join('L')}Z` }),
          ),
          make('rect', {
            class: 'frame',
            ...{ x: closeUp.left, y: closeUp.top, width: closeUp.width, height: closeUp.height },
          }),
        ]),
      ],
    );
  };
}
