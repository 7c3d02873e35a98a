/// <reference lib="dom" />
import type { PageData } from '../data.js';
import type { MakeElement } from './element.js';

/**
 * Draws the front into `host` as wide as it is, again whenever that changes. Designs are the radio buttons of one group:
 * click, arrow keys, Home and End choose. Returns a function that marks a design as chosen.
 */
export function frontChart(
  make: MakeElement,
  host: HTMLElement,
  data: PageData,
  choose: (index: number) => void,
): (index: number) => void {
  const order = data.designs.map((_, i) => i).sort((a, b) => data.designs[a]!.place[0] - data.designs[b]!.place[0]);
  const tip = make('div', { class: 'tip', hidden: '' });
  let points: HTMLElement[] = [];
  let chosen = data.picked;

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

  const caption = (index: number) => data.designs[index]!.caption;

  const showTip = (index: number, x: number, y: number) => {
    tip.textContent = caption(index);
    tip.hidden = false;
    const room = host.clientWidth - tip.offsetWidth;
    tip.style.left = `${Math.max(0, Math.min(room, x - tip.offsetWidth / 2))}px`;
    tip.style.top = `${y > tip.offsetHeight + 16 ? y - tip.offsetHeight - 14 : y + 16}px`;
  };
  const hideTip = () => {
    tip.hidden = true;
  };

  const mark = (index: number) => {
    chosen = index;
    points.forEach((point, i) => {
      point.setAttribute('aria-checked', String(i === index));
      point.setAttribute('tabindex', i === index ? '0' : '-1');
    });
  };

  const onKey = (event: KeyboardEvent, index: number) => {
    const place = order.indexOf(index);
    const target = {
      ArrowRight: place + 1,
      ArrowUp: place + 1,
      ArrowLeft: place - 1,
      ArrowDown: place - 1,
      Home: 0,
      End: order.length - 1,
      ' ': place,
      Enter: place,
    }[event.key];
    if (target === undefined) return;
    event.preventDefault();
    const next = order[(target + order.length) % order.length]!;
    choose(next);
    points[next]!.focus();
  };

  const draw = () => {
    const width = Math.max(240, host.clientWidth);
    const height = Math.round(Math.min(460, Math.max(300, 0.7 * width)));
    const [left, right, top, bottom] = [52, width - 14, 14, height - 50];
    const others = data.reference ? [data.reference] : [];
    const all = [...data.designs, ...others];
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

    const axes = [
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
      axes.push(make('line', { class: 'allow', x1: left, x2: right, y1: up.at(data.limit), y2: up.at(data.limit) }));
    for (const point of others)
      axes.push(
        make('path', {
          class: 'reference',
          d: 'M-7-2.5h4.5v-4.5h5v4.5h4.5v5h-4.5v4.5h-5v-4.5h-4.5Z',
          transform: `translate(${across.at(point.place[0])} ${up.at(point.place[1])})`,
        }),
      );
    if (data.designs.length === 0)
      axes.push(
        make('text', { x: (left + right) / 2, y: top + 40, 'text-anchor': 'middle' }, ['no design meets the brief']),
      );

    const focused = points.indexOf(document.activeElement as HTMLElement);
    points = data.designs.map((design, index) => {
      const [x, y] = [across.at(design.place[0]), up.at(design.place[1])];
      const sign = data.signs[design.family]!;
      const point = make(
        'g',
        { class: 'point', role: 'radio', 'aria-label': caption(index), transform: `translate(${x} ${y})` },
        [
          make('circle', { class: 'halo', r: 11 }),
          make('path', { d: sign.path, fill: sign.fill, stroke: sign.stroke, 'stroke-width': 1.5 }),
        ],
      );
      point.addEventListener('keydown', (event) => onKey(event, index));
      point.addEventListener('focus', () => showTip(index, x, y));
      point.addEventListener('blur', hideTip);
      return point;
    });
    const group = make('g', { role: 'radiogroup', 'aria-label': 'designs of the front' }, points);
    const chart = make('svg', { width, height, viewBox: `0 0 ${width} ${height}` }, [...axes, group]);

    // Neighbours may lie closer than a finger is wide: the nearest design counts, not the one drawn last.
    const nearest = (event: MouseEvent) => {
      const frame = chart.getBoundingClientRect();
      const [x, y] = [event.clientX - frame.left, event.clientY - frame.top];
      const distances = data.designs.map((design) =>
        Math.hypot(across.at(design.place[0]) - x, up.at(design.place[1]) - y),
      );
      const index = distances.indexOf(Math.min(...distances));
      return distances[index]! <= 24 ? index : undefined;
    };
    chart.addEventListener('pointermove', (event) => {
      const index = nearest(event);
      points.forEach((point, i) => {
        point.classList.toggle('near', i === index);
      });
      chart.classList.toggle('aimed', index !== undefined);
      if (index === undefined) hideTip();
      else showTip(index, across.at(data.designs[index]!.place[0]), up.at(data.designs[index]!.place[1]));
    });
    chart.addEventListener('pointerleave', () => {
      for (const point of points) point.classList.remove('near');
      hideTip();
    });
    chart.addEventListener('click', (event) => {
      const index = nearest(event);
      if (index === undefined) return;
      choose(index);
      points[index]!.focus();
    });
    host.replaceChildren(chart, tip);
    hideTip();
    mark(chosen);
    points[focused]?.focus();
  };

  let drawnWidth = 0;
  new ResizeObserver(() => {
    if (host.clientWidth === drawnWidth) return;
    drawnWidth = host.clientWidth;
    draw();
  }).observe(host);
  return mark;
}
