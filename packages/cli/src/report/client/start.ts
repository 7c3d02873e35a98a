/// <reference lib="dom" />
import type { PageChannel } from '../data.js';
import type { frontChart } from './chart.js';
import type { frontDrawing } from './drawing.js';
import type { MakeElement } from './element.js';
import type { channelFacts } from './facts.js';
import type { fieldDrawing } from './field.js';
import type { fieldsShown } from './fields.js';
import type { FitWidth } from './fit-width.js';
import type { jointShown } from './joint.js';
import type { frontLines } from './lines.js';
import type { aroundChannels, frameAround, peakArrow } from './marks.js';
import type { ReadPage } from './read-page.js';
import type { saveFiles } from './save.js';
import type { overviewDrawing, sectionDrawing } from './section.js';
import type { stressBar } from './stress-bar.js';
import type { channelTables, tableMaker } from './tables.js';
import type { designTip } from './tip.js';
import type { UnpackBytes } from './unpack-bytes.js';

/** What the page is made of, by value. */
export interface PageParts {
  readonly readPage: ReadPage;
  readonly unpackBytes: UnpackBytes;
  readonly makeElement: MakeElement;
  readonly fitWidth: FitWidth;
  readonly frontDrawing: typeof frontDrawing;
  readonly frontLines: typeof frontLines;
  readonly designTip: typeof designTip;
  readonly frontChart: typeof frontChart;
  readonly tableMaker: typeof tableMaker;
  readonly channelFacts: typeof channelFacts;
  readonly channelTables: typeof channelTables;
  readonly overviewDrawing: typeof overviewDrawing;
  readonly sectionDrawing: typeof sectionDrawing;
  readonly peakArrow: typeof peakArrow;
  readonly aroundChannels: typeof aroundChannels;
  readonly frameAround: typeof frameAround;
  readonly jointShown: typeof jointShown;
  readonly stressBar: typeof stressBar;
  readonly fieldDrawing: typeof fieldDrawing;
  readonly fieldsShown: typeof fieldsShown;
  readonly saveFiles: typeof saveFiles;
}

/** What the page shows, and the one place where that changes. */
export interface PageState {
  readonly index: number;
  /** The channel beside the chosen one; none where there is no other. */
  readonly beside?: PageChannel;
  readonly caseName: string;
}

/** Wires chart, panel, pictures, controls and the buttons of the table together. */
export async function startReport(parts: PageParts): Promise<void> {
  const byId = (id: string) => document.getElementById(id)!;
  const data = await parts.readPage(byId('report-data').textContent!, parts.unpackBytes);
  if (data.designs.length === 0) return;
  const make = parts.makeElement;
  const table = parts.tableMaker(make);
  const facts = parts.channelFacts(table, data);
  const tables = parts.channelTables(make, table, data);
  const overview = parts.overviewDrawing(make, data, parts.aroundChannels(make));
  const files = parts.saveFiles(make, data);
  const showJoint = parts.jointShown(
    make,
    byId('joint-figures'),
    data,
    parts.sectionDrawing(make, data, {
      arrow: parts.peakArrow(make),
      around: parts.aroundChannels(make),
      frameAround: parts.frameAround,
    }),
    parts.fitWidth,
  );
  const fieldHost = document.getElementById('field-figures');
  const showFields =
    fieldHost && parts.fieldsShown(make, fieldHost, data, parts.fieldDrawing(make, data), parts.fitWidth);
  byId('bar').replaceChildren(parts.stressBar(make, data));

  // What is chosen, in which case, beside what.
  let chosen = data.picked;
  let besideName = data.reference?.name ?? '';
  let wantedCase = '';

  const show = () => {
    const channel = data.designs[chosen]!;
    const others = [...(data.reference === undefined ? [] : [data.reference]), ...data.designs];
    const beside = others.find(({ name }) => name === besideName && name !== channel.name);
    const caseName = wantedCase === '' ? (channel.edge?.worstCase ?? data.cases[0] ?? '') : wantedCase;
    const state: PageState = { index: chosen, caseName, ...(beside === undefined ? {} : { beside }) };
    byId('design-heading').textContent = `${channel.name.replace(/^d/, 'D')}, ${channel.family}`;
    const whole = overview(channel);
    byId('design').replaceChildren(
      ...(whole === undefined ? [] : [whole]),
      facts(channel, beside),
      files(chosen, channel),
    );
    byId('tables').replaceChildren(...tables(channel));
    byId('tables-heading').textContent = `Case by case: ${channel.name}`;
    showJoint(state);
    showFields?.(state);
    mark?.(chosen);
    document.documentElement.dataset.shown = String(chosen);
    document.dispatchEvent(new CustomEvent('design', { detail: chosen }));
    for (const button of document.querySelectorAll('[data-design]')) {
      const own = button.getAttribute('data-design') === String(chosen);
      button.setAttribute('aria-pressed', String(own));
      button.closest('tr')?.classList.toggle('chosen', own);
    }
  };
  const choose = (index: number) => {
    chosen = index;
    show();
  };

  const front = document.getElementById('front');
  const mark =
    front &&
    parts.frontChart(
      front,
      data,
      {
        draw: parts.frontDrawing(make, data, parts.frontLines(make, data)),
        tip: parts.designTip(make, front),
        fit: parts.fitWidth,
      },
      choose,
    );
  for (const button of document.querySelectorAll('[data-design]'))
    button.addEventListener('click', () => {
      choose(Number(button.getAttribute('data-design')));
      byId('chosen').scrollIntoView({ block: 'start' });
    });
  for (const choice of document.querySelectorAll<HTMLInputElement>('input[name=case]'))
    choice.addEventListener('change', () => {
      wantedCase = choice.value;
      show();
    });
  const others = byId('beside') as HTMLSelectElement;
  others.addEventListener('change', () => {
    besideName = others.value;
    show();
  });
  show();

  const live = document.getElementById('live-script');
  if (live === null) return;
  const script = document.createElement('script');
  script.textContent = new TextDecoder().decode(await parts.unpackBytes(live.textContent!));
  document.body.append(script);
}
