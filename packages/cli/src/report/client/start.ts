/// <reference lib="dom" />
import type { PageData } from '../data.js';
import type { frontChart } from './chart.js';
import type { frontDrawing } from './drawing.js';
import type { MakeElement } from './element.js';
import type { channelFigures } from './figures.js';
import type { designPanel } from './panel.js';
import type { designTip } from './tip.js';

/** What the page is made of, by value. */
export interface PageParts {
  readonly makeElement: MakeElement;
  readonly frontDrawing: typeof frontDrawing;
  readonly designTip: typeof designTip;
  readonly frontChart: typeof frontChart;
  readonly channelFigures: typeof channelFigures;
  readonly designPanel: typeof designPanel;
}

/** Wires chart, panel and the buttons of the table together. */
export function startReport(parts: PageParts): void {
  const byId = (id: string) => document.getElementById(id)!;
  const data = JSON.parse(byId('report-data').textContent!) as PageData;
  const make = parts.makeElement;
  const show = parts.designPanel(make, byId('design'), data, parts.channelFigures(make, data));
  const choose = (index: number) => {
    mark(index);
    show(index);
    for (const row of document.querySelectorAll('[data-design]'))
      row.setAttribute('aria-pressed', String(row.getAttribute('data-design') === String(index)));
  };
  const front = byId('front');
  const look = { draw: parts.frontDrawing(make, data), tip: parts.designTip(make, front) };
  const mark = parts.frontChart(front, data, look, choose);
  for (const button of document.querySelectorAll('[data-design]'))
    button.addEventListener('click', () => {
      choose(Number(button.getAttribute('data-design')));
      byId('chosen').scrollIntoView({ block: 'nearest' });
    });
  if (data.designs.length > 0) choose(data.picked);
}
