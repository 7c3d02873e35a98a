/// <reference lib="dom" />
import type { PageChannel, PageData } from '../data.js';
import type { MakeElement } from './element.js';
import type { aroundChannels, frameAround, peakArrow } from './marks.js';

/** A channel, the case whose stress is shown, and the outline of another one for comparison. */
export interface SectionView {
  readonly channel: PageChannel;
  readonly caseName: string;
  readonly beside?: PageChannel;
}

/** What a drawing of the section is made of. */
export interface SectionParts {
  readonly arrow: ReturnType<typeof peakArrow>;
  readonly around: ReturnType<typeof aroundChannels>;
  readonly frameAround: typeof frameAround;
}

/** Returns a function that draws what is around a channel, enlarged, with the stress along its edge, in a given width. */
export function sectionDrawing(
  make: MakeElement,
  { section, scale, ramp }: PageData,
  { arrow, around, frameAround }: SectionParts,
): (view: SectionView, hostWidth: number) => HTMLElement {
  type Place = readonly [x: number, y: number];
  const far = 420;

  const colourOf = (stress: number) => {
    const share = Math.min(1, Math.max(0, (stress - scale.low) / (scale.high - scale.low)));
    return ramp[Math.round(share * (ramp.length - 1))]!;
  };

  return ({ channel, caseName, beside }, hostWidth) => {
    const box = section?.closeUp ?? frameAround([channel, ...(beside === undefined ? [] : [beside])]);
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
      const transform = `scale(${size}) translate(${-box.left} ${-box.top})`;
      marks.push(make('g', { class: 'section', transform }, around(channel.section ?? section)));
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
  around: ReturnType<typeof aroundChannels>,
): (channel: PageChannel) => HTMLElement | undefined {
  return ({ name, outline, others = [], section: own }) => {
    if (section === undefined) return undefined;
    const { whole, closeUp, turn } = section;
    return make(
      'svg',
      {
        class: 'overview',
        viewBox: `${whole.left} ${whole.top} ${whole.width} ${whole.height}`,
        ...{ role: 'img', 'aria-label': `the whole section with ${name}` },
      },
      [
        make('g', turn === undefined ? {} : { transform: turn }, [
          ...around(own ?? section),
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
