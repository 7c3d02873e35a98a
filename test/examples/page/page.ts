/// <reference lib="dom" />
// Shows the front as it is found, and solves the outline of the chosen design here, as its sliders move.
import {
  type Curve,
  channelRoom,
  createChannelReporter,
  createFamily,
  createTask,
  decodeModel,
  type EvaluatedChannel,
  loadHost,
  type OutlineRoom,
  outlineOf,
  starterBrief,
} from '@lumenfront/core';
import type { FoundChannel } from '@lumenfront/optimizer';
import type { News, Order } from './messages.js';

const byId = <E extends Element = HTMLElement>(id: string) => document.getElementById(id) as unknown as E;
const draw = (name: string, attributes: Record<string, string | number>, text = '') => {
  const element = document.createElementNS('http://www.w3.org/2000/svg', name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  element.textContent = text;
  return element;
};

const worker = new Worker('worker.js');
const order = (what: Order) => worker.postMessage(what);
let solve: ((outline: Curve) => EvaluatedChannel) | undefined;
let room: OutlineRoom;
/** What the front trades, with units; the cost of a strength is its inverse. */
let traded: { readonly size: string; readonly cost: string };

byId<HTMLTextAreaElement>('brief').value = starterBrief;
byId('start').onclick = () => {
  busy(true);
  byId('status').textContent = 'Solving the joint …';
  byId('front').replaceChildren();
  order({ start: byId<HTMLTextAreaElement>('brief').value });
};
byId('stop').onclick = () => order('stop');

// One after the other: what comes while a kind of host is fetched waits for it.
let heard = Promise.resolve();
worker.onmessage = ({ data }: MessageEvent<News>) => {
  heard = heard.then(() => hear(data));
};

async function hear(news: News): Promise<void> {
  if ('reducing' in news) byId<HTMLProgressElement>('progress').value = news.reducing;
  else if ('reduced' in news) {
    const { model, brief, milliseconds } = news.reduced;
    await loadHost(brief.joint); // the worker has read the brief, this thread has not
    const task = createTask(brief, decodeModel('page', model));
    solve = createChannelReporter(task);
    room = channelRoom(task);
    const { size, cost } = brief.search.objective;
    traded = {
      size: size === 'area' ? 'channel area, mm²' : 'conductance, mm⁴',
      cost: cost === 'peak' ? 'peak stress, MPa' : cost === 'loadFactor' ? '1 / load factor' : '1 / strength retained',
    };
    byId('status').textContent = `Joint solved in ${(milliseconds / 1000).toFixed(1)} s; searching …`;
  } else if ('progress' in news) byId<HTMLProgressElement>('progress').value = news.progress;
  else {
    busy(false);
    byId('status').textContent =
      'failed' in news
        ? news.failed
        : `${news.stop}: ${news.found.length} designs. Choose one by click or by the arrow keys.`;
    if ('found' in news) showFront(news.found);
  }
}

function busy(is: boolean): void {
  byId<HTMLButtonElement>('start').disabled = is;
  byId<HTMLButtonElement>('stop').disabled = !is;
}

function showFront(designs: readonly FoundChannel[]): void {
  const most = (of: (design: FoundChannel) => number) => 1.05 * Math.max(...designs.map(of));
  const [width, cost] = [most((design) => design.size), most((design) => design.cost)];
  const points = designs.map((design, i) => {
    const place = { cx: 50 + (530 * design.size) / width, cy: 280 - (260 * design.cost) / cost, r: 6 };
    const point = draw('circle', { ...place, role: 'radio', tabindex: i === 0 ? 0 : -1, 'aria-checked': 'false' });
    const said = (what: string, value: number) =>
      `${what.split(', ')[0]} ${value.toPrecision(3)} ${what.split(', ')[1] ?? ''}`;
    point.setAttribute(
      'aria-label',
      `${design.family}, ${said(traded.size, design.size)}, ${said(traded.cost, design.cost)}`,
    );
    const choose = (k: number) => {
      points.forEach((other, j) => {
        other.setAttribute('aria-checked', String(j === k));
        other.setAttribute('tabindex', j === k ? '0' : '-1');
      });
      showDesign(designs[k]!);
    };
    point.addEventListener('click', () => choose(i));
    point.addEventListener('keydown', (event) => {
      const next = i + ({ ArrowRight: 1, ArrowLeft: -1 }[(event as KeyboardEvent).key] ?? 0);
      if (next === i || points[next] === undefined) return;
      points[next].focus();
      choose(next);
    });
    return point;
  });
  byId('front').replaceChildren(
    draw('path', { class: 'axis', d: 'M50 20V280H580' }),
    ...ticks(width).map((value) => {
      return draw('text', { x: 50 + (530 * value) / width, y: 294, 'text-anchor': 'middle' }, String(value));
    }),
    ...ticks(cost).map((value) => {
      return draw('text', { x: 46, y: 284 - (260 * value) / cost, 'text-anchor': 'end' }, String(value));
    }),
    draw('text', { x: 315, y: 312, 'text-anchor': 'middle' }, traded.size),
    draw('text', { x: 14, y: 150, 'text-anchor': 'middle', transform: 'rotate(-90 14 150)' }, traded.cost),
    ...points,
  );
  points[0]?.dispatchEvent(new MouseEvent('click'));
}

/** Round values from 0, three to seven of them. */
function ticks(most: number): readonly number[] {
  const decade = Number(`1e${Math.floor(Math.log10(most / 3))}`);
  const step = decade * ([5, 2].find((times) => times * decade <= most / 3) ?? 1);
  return Array.from({ length: Math.floor(most / step) + 1 }, (_, i) => Number((i * step).toPrecision(6)));
}

/** Sliders for families of few parameters; a free outline is shown as it is. */
function showDesign({ family, parameters }: FoundChannel): void {
  const values = { ...parameters };
  const update = () => showOutline(outlineOf({ family, parameters: values }, room));
  const known = 'curvature1' in parameters ? [] : createFamily(family, room).parameters;
  byId('sliders').replaceChildren(
    ...(known.length > 6 ? [] : known).map(({ name, lower, upper, unit, meaning }) => {
      const label = document.createElement('label');
      label.className = 'slider';
      label.title = meaning;
      const input = document.createElement('input');
      Object.assign(input, { type: 'range', min: lower, max: upper, step: (upper - lower) / 500, value: values[name] });
      const output = document.createElement('output');
      const say = () => {
        output.textContent = `${values[name]!.toFixed(3)} ${unit}`;
      };
      input.oninput = () => {
        values[name] = Math.min(upper, Math.max(lower, Number(input.value)));
        say();
        update();
      };
      say();
      label.append(name, input, output);
      return label;
    }),
  );
  update();
}

function showOutline(outline: Curve): void {
  try {
    const { design, edge, caseHoop } = solve!(outline);
    const { x, y } = edge.nodes;
    const hoop = caseHoop[design.worstCase]!;
    const scale = Math.min(540 / design.width, 200 / design.height);
    const middle = (Math.min(...y) + Math.max(...y)) / 2;
    const at = (j: number) => `${(300 + scale * x[j]!).toFixed(1)} ${(130 - scale * (y[j]! - middle)).toFixed(1)}`;
    byId('outline').replaceChildren(
      ...Array.from(hoop, (stress, j) => {
        const share = Math.min(1, Math.max(0, stress / design.peak));
        const d = `M${at(j)}L${at((j + 1) % hoop.length)}`;
        return draw('path', {
          d,
          stroke: `color-mix(in oklab, #b5402a ${100 * share}%, #4a93a8)`,
          'stroke-width': 5,
          'stroke-linecap': 'round',
        });
      }),
    );
    byId('figures').textContent =
      `area ${design.area.toFixed(3)} mm², conductance ${design.conductance.toPrecision(3)} mm⁴, peak ${design.peak.toFixed(1)} MPa in ${design.worstCase}`;
  } catch (error) {
    byId('figures').textContent = (error as Error).message;
  }
}
