/// <reference lib="dom" />
import type { PageData } from '../data.js';
import type { frontChart } from './chart.js';
import type { MakeElement } from './element.js';
import type { channelFigures } from './figures.js';
import type { designPanel } from './panel.js';

/** Wires chart, panel and the buttons of the table together. */
export function startReport(
  make: MakeElement,
  chart: typeof frontChart,
  panel: typeof designPanel,
  figures: typeof channelFigures,
): void {
  const byId = (id: string) => document.getElementById(id)!;
  const data = JSON.parse(byId('report-data').textContent!) as PageData;
  const show = panel(make, byId('design'), data, figures(make, data));
  const choose = (index: number) => {
    mark(index);
    show(index);
    for (const row of document.querySelectorAll('[data-design]'))
      row.setAttribute('aria-pressed', String(row.getAttribute('data-design') === String(index)));
  };
  const mark = chart(make, byId('front'), data, choose);
  for (const button of document.querySelectorAll('[data-design]'))
    button.addEventListener('click', () => {
      choose(Number(button.getAttribute('data-design')));
      byId('chosen').scrollIntoView({ block: 'nearest' });
    });
  if (data.designs.length > 0) choose(data.picked);
}
