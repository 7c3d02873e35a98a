/// <reference lib="dom" />
import type { PageData } from '../data.js';
import type { frontDrawing } from './drawing.js';
import type { FitWidth } from './fit-width.js';
import type { designTip } from './tip.js';

/**
 * Puts the front into `host` as wide as it is, again whenever that changes. Designs are the radio buttons of one group:
 * click, arrow keys, Home and End choose. Returns a function that marks a design as chosen.
 */
export function frontChart(
  host: HTMLElement,
  data: PageData,
  { draw, tip, fit }: { draw: ReturnType<typeof frontDrawing>; tip: ReturnType<typeof designTip>; fit: FitWidth },
  choose: (index: number) => void,
): (index: number) => void {
  const order = data.designs.map((_, i) => i).sort((a, b) => data.designs[a]!.place[0] - data.designs[b]!.place[0]);
  let points: HTMLElement[] = [];
  let chosen = data.picked;

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

  const redraw = () => {
    const focused = points.indexOf(document.activeElement as HTMLElement);
    const { chart, places, told, ...drawn } = draw(host.clientWidth);
    points = drawn.points;
    const showTip = (index: number) => tip.show(data.designs[index]!.caption, ...places[index]!);
    points.forEach((point, index) => {
      point.addEventListener('keydown', (event) => onKey(event, index));
      point.addEventListener('focus', () => showTip(index));
      point.addEventListener('blur', tip.hide);
    });

    // Neighbours may lie closer than a finger is wide: the nearest design counts, not the one drawn last.
    const nearestOf = (event: MouseEvent, all: typeof places, within: number) => {
      const frame = chart.getBoundingClientRect();
      const [x, y] = [event.clientX - frame.left, event.clientY - frame.top];
      const distances = all.map(([atX, atY]) => Math.hypot(atX - x, atY - y));
      const index = distances.indexOf(Math.min(...distances));
      return distances[index]! <= within ? index : undefined;
    };
    const onLines = told.map(({ at }) => at);
    const nearest = (event: MouseEvent) => nearestOf(event, places, 24);
    chart.addEventListener('pointermove', (event) => {
      const index = nearest(event);
      points.forEach((point, i) => {
        point.classList.toggle('near', i === index);
      });
      chart.classList.toggle('aimed', index !== undefined);
      const onLine = nearestOf(event, onLines, 10);
      if (index !== undefined) showTip(index);
      else if (onLine !== undefined) tip.show(told[onLine]!.caption, ...onLines[onLine]!);
      else tip.hide();
    });
    chart.addEventListener('pointerleave', () => {
      for (const point of points) point.classList.remove('near');
      tip.hide();
    });
    chart.addEventListener('click', (event) => {
      const index = nearest(event);
      if (index === undefined) return;
      choose(index);
      points[index]!.focus();
    });
    host.replaceChildren(chart, tip.element);
    tip.hide();
    mark(chosen);
    points[focused]?.focus();
  };

  fit(host, redraw);
  return mark;
}
