/// <reference lib="dom" />
import type { PageData } from '../data.js';
import type { MakeElement } from './element.js';

/** The colours of all stresses of the report, with its ends, zero and the allowed peak marked. */
export function stressBar(make: MakeElement, { scale: { low, high, allow }, ramp }: PageData): HTMLElement {
  const share = (stress: number) => (100 * (stress - low)) / (high - low);
  const marks: [stress: number, text: string][] = [
    [low, low.toFixed(0)],
    [high, high.toFixed(0)],
  ];
  if (low < 0 && high > 0) marks.push([0, '0']);
  if (allow !== undefined && allow < high) marks.push([allow, `allowed ${Number(allow.toFixed(1))}`]);
  const rows = marks.map(([stress, text], i) => {
    const at = share(stress);
    // Near an end its own number would be written over.
    const lower = i > 1 && (at < 10 || at > 78) ? ' lower' : '';
    const side = at < 8 ? ' from' : at > 92 ? ' to' : '';
    return make('span', { class: `mark${lower}${side}`, style: `left: ${at.toFixed(2)}%` }, [text]);
  });
  return make('div', { class: 'bar-frame' }, [
    make('div', {
      class: 'bar',
      'aria-hidden': 'true',
      style: `background: linear-gradient(to right, ${ramp.join(', ')})`,
    }),
    make('div', { class: 'marks' }, rows),
    make('p', { class: 'note' }, ['stress, MPa: one range for the whole report']),
  ]);
}
