/// <reference lib="dom" />
import type { Curve, OutlineData } from '@lumenfront/core';
import { makeElement as make } from '../client/element.js';
import { channelFacts } from '../client/facts.js';
import { fitWidth } from '../client/fit-width.js';
import { saveFiles } from '../client/save.js';
import { sectionDrawing } from '../client/section.js';
import { tableMaker } from '../client/tables.js';
import type { PageChannel, PageData } from '../data.js';
import { deform, handleCount, handlePlaces, undeformed, withHandle } from './deform.js';
import type { LiveEngine } from './engine.js';

/** Steps of the arrow keys, mm; with the shift key. */
const keyStep = 0.02;
const wideStep = 0.1;

const sliders = [
  { key: 'width', text: 'width', unit: '×', least: 0.5, most: 1.8, step: 0.01 },
  { key: 'height', text: 'height', unit: '×', least: 0.5, most: 1.8, step: 0.01 },
  { key: 'up', text: 'up', unit: 'mm', least: -1, most: 1, step: 0.01 },
  { key: 'right', text: 'right', unit: 'mm', least: -1, most: 1, step: 0.01 },
] as const;

/** Fills `host` with the outline of a design to be changed by handles and sliders; returns what shows another design. */
export function livePanel(host: HTMLElement, data: PageData, engine: LiveEngine): (index: number) => void {
  const draw = sectionDrawing(make, data);
  const facts = channelFacts(tableMaker(make), data);
  const save = saveFiles(make, data);

  const picture = make('div', { class: 'live-picture' });
  const drawn = make('div');
  const overlay = make('svg', { class: 'handles', role: 'group', 'aria-label': 'handles of the outline' });
  picture.append(drawn, overlay);
  const figures = make('div', { class: 'live-figures' });
  const status = make('p', { class: 'note', role: 'status' });
  const saving = make('div');
  const button = (text: string, act: () => void) => {
    const made = make('button', { type: 'button' }, [text]);
    made.addEventListener('click', act);
    return made;
  };

  let index = 0;
  let base: Curve;
  /** Of a refined outline that was not changed since, as files hold it. */
  let exact: OutlineData | undefined;
  let deformation = undeformed();
  let channel: PageChannel | undefined;
  let waiting = false;
  let solved = true;
  let scale = { size: 1, left: 0, top: 0 };

  const handles = Array.from({ length: handleCount }, (_, k) => {
    const handle = make('circle', {
      class: 'handle',
      ...{ r: 7, tabindex: 0, role: 'button' },
      'aria-label': `handle ${k + 1} of ${handleCount}: arrow keys move it`,
    });
    const move = (x: number, y: number) => {
      deformation = withHandle(deformation, base.mirror, k, x, y);
      changed();
    };
    handle.addEventListener('keydown', (event) => {
      const step = event.shiftKey ? wideStep : keyStep;
      const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
      if (way === undefined) return;
      event.preventDefault();
      move(step * way[0]!, step * way[1]!);
      settle();
    });
    handle.addEventListener('pointerdown', (event) => {
      event.preventDefault();
      handle.setPointerCapture(event.pointerId);
      let [x, y] = [event.clientX, event.clientY];
      const drag = (next: PointerEvent) => {
        move((next.clientX - x) / scale.size, (y - next.clientY) / scale.size);
        [x, y] = [next.clientX, next.clientY];
      };
      handle.addEventListener('pointermove', drag);
      const drop = () => {
        handle.removeEventListener('pointermove', drag);
        settle();
      };
      handle.addEventListener('lostpointercapture', drop, { once: true });
    });
    return handle;
  });
  overlay.append(...handles);

  const inputs = sliders.map(({ key, text, unit, least, most, step }) => {
    const input = make('input', { type: 'range', min: least, max: most, step, 'data-slider': key }) as HTMLInputElement;
    const output = make('output');
    input.addEventListener('input', () => {
      deformation = { ...deformation, [key]: Number(input.value) };
      changed();
    });
    input.addEventListener('change', settle);
    const show = () => {
      input.value = String(deformation[key]);
      output.textContent = `${deformation[key].toFixed(2)} ${unit}`;
      input.disabled = key === 'right' && base.mirror;
    };
    return { show, row: make('label', { class: 'slider' }, [make('span', {}, [text]), input, output]) };
  });

  /** At most one solve to a frame. */
  function changed(): void {
    exact = undefined;
    if (waiting) return;
    waiting = true;
    requestAnimationFrame(() => {
      waiting = false;
      update();
    });
  }

  function update(): void {
    performance.mark('outline changed');
    const curve = deform(base, deformation);
    const judged = engine.judge(curve);
    solved = typeof judged !== 'string';
    if (typeof judged === 'string') status.textContent = judged;
    else {
      status.textContent = engine.missed(judged);
      const { name } = data.designs[index]!;
      channel = { ...judged, parameters: {}, name: 'changed', place: [0, 0], caption: `${name}, changed by hand` };
      show();
    }
    for (const { show } of inputs) show();
    placeHandles(curve);
    performance.measure('outline update', 'outline changed');
  }

  function show(): void {
    if (channel === undefined) return;
    const design = data.designs[index]!;
    const caseName = channel.edge?.worstCase ?? data.cases[0] ?? '';
    const width = Math.min(picture.clientWidth || 600, 760);
    const svg = draw({ channel, caseName, beside: design }, width);
    drawn.replaceChildren(svg);
    const [wide, high] = [Number(svg.getAttribute('width')), Number(svg.getAttribute('height'))];
    overlay.setAttribute('width', String(wide));
    overlay.setAttribute('height', String(high));
    const box = data.section?.closeUp;
    if (box === undefined) overlay.setAttribute('hidden', '');
    else scale = { size: wide / box.width, left: box.left, top: box.top };
    figures.replaceChildren(facts(channel, design));
  }

  function placeHandles(curve: Curve): void {
    for (const [k, [x, y]] of handlePlaces(curve).entries()) {
      handles[k]!.setAttribute('cx', (scale.size * (x - scale.left)).toFixed(2));
      handles[k]!.setAttribute('cy', (scale.size * (-y - scale.top)).toFixed(2));
    }
  }

  /** What takes longer than a frame, once a change has come to rest. */
  function settle(): void {
    requestAnimationFrame(() => {
      saving.replaceChildren();
      if (channel === undefined || !solved) return;
      saving.append(save(index, { ...channel, files: engine.files(deform(base, deformation), exact) }, 'changed-'));
    });
  }

  async function refine(): Promise<void> {
    status.textContent = 'Refining …';
    await new Promise(requestAnimationFrame);
    const found = await engine.refine(deform(base, deformation));
    if (typeof found === 'string') {
      status.textContent = found;
      return;
    }
    base = found.curve;
    deformation = undeformed();
    update();
    exact = found.data;
    settle();
  }

  function begin(next: number): void {
    index = next;
    base = engine.outline(next);
    deformation = undeformed();
    update();
    settle();
  }

  host.replaceChildren(
    make('div', { class: 'live' }, [
      picture,
      make('div', {}, [
        ...inputs.map(({ row }) => row),
        make('p', { class: 'live-buttons' }, [
          button('refine to the nearest locally best outline', () => void refine()),
          button('back to the design', () => begin(index)),
        ]),
        status,
        figures,
        saving,
      ]),
    ]),
  );
  fitWidth(picture, () => {
    if (channel !== undefined) update();
  });
  return begin;
}
