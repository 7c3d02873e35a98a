/// <reference lib="dom" />
import type { Curve, OutlineData } from '@lumenfront/core';
import { makeElement as make } from '../client/element.js';
import { channelFacts } from '../client/facts.js';
import { fitWidth } from '../client/fit-width.js';
import { aroundChannels, frameAround, peakArrow } from '../client/marks.js';
import { saveFiles } from '../client/save.js';
import { sectionDrawing } from '../client/section.js';
import { tableMaker } from '../client/tables.js';
import type { PageChannel, PageData } from '../data.js';
import { type Deformation, deform, undeformed, withHandle } from './deform.js';
import type { LiveChannel, LiveEngine } from './engine.js';
import { outlineHandles, type PictureScale } from './handles.js';
import { outlineSliders } from './sliders.js';

/** So long an outline lies still before it counts as at rest, ms. */
const rest = 150;

/** Fills `host` with the outline of a design to be changed by handles and sliders; returns what shows another design. */
export function livePanel(host: HTMLElement, data: PageData, engine: LiveEngine): (index: number) => void {
  const facts = channelFacts(tableMaker(make), data);
  const save = saveFiles(make, data);
  const picture = livePicture(data);
  const figures = make('div', { class: 'live-figures' });
  const status = make('p', { class: 'note', role: 'status' });
  const saving = make('div');

  let index = 0;
  const hand = outlineInHand(changed);
  let channel: PageChannel | undefined;
  let resting: ReturnType<typeof setTimeout> | undefined;
  let solved = true;
  /** What is shown was solved by few nodes. */
  let draft = false;

  const placeHandles = outlineHandles(picture.overlay, { scale: picture.scale, move: hand.move, settle });
  const inputs = outlineSliders({ change: hand.change, settle });

  /** Files of the outline before are those of another now. */
  function unsettle(): void {
    clearTimeout(resting);
    saving.replaceChildren();
  }

  const updateSoon = onceAFrame(() => update(true));
  function changed(): void {
    unsettle();
    updateSoon();
  }

  /** `moving`: by few nodes, which serve until the outline comes to rest. */
  function update(moving: boolean): void {
    performance.mark('outline changed');
    const curve = hand.curve();
    const judged = engine.judge(curve, moving);
    draft = moving;
    solved = typeof judged !== 'string';
    status.textContent = typeof judged === 'string' ? judged : engine.missed(judged);
    if (typeof judged !== 'string') {
      const design = data.designs[index]!;
      channel = changedByHand(judged, design);
      picture.show(channel, design);
      figures.replaceChildren(facts(channel, design));
    }
    inputs.show(...hand.shown());
    placeHandles(curve);
    performance.measure(moving ? 'outline update' : 'outline at rest', 'outline changed');
  }

  /** What takes longer than a frame, once a change has come to rest. */
  function settle(): void {
    unsettle();
    resting = setTimeout(() => {
      if (draft) update(false);
      if (channel === undefined || !solved) return;
      saving.append(save(index, { ...channel, files: engine.files(hand.curve(), hand.exact()) }, 'changed-'));
    }, rest);
  }

  async function refine(): Promise<void> {
    status.textContent = 'Refining …';
    await new Promise(requestAnimationFrame);
    const found = await engine.refine(hand.curve());
    if (typeof found === 'string') status.textContent = found;
    else take(found.curve, found.data);
  }

  function take(...outline: Parameters<typeof hand.take>): void {
    hand.take(...outline);
    update(false);
    settle();
  }

  function begin(next: number): void {
    index = next;
    take(engine.outline(next));
  }

  const buttons = make('p', { class: 'live-buttons' }, [
    button('refine to the nearest locally best outline', () => void refine()),
    button('back to the design', () => begin(index)),
  ]);
  const beside = make('div', {}, [...inputs.rows, buttons, status, figures, saving]);
  host.replaceChildren(make('div', { class: 'live' }, [picture.element, beside]));
  fitWidth(picture.element, () => {
    if (channel !== undefined) update(false);
  });
  return begin;
}

const changedByHand = (judged: LiveChannel, { name }: PageChannel): PageChannel => ({
  ...judged,
  ...{ parameters: {}, name: 'changed', place: [0, 0], caption: `${name}, changed by hand` },
});

/** The outline that is being changed; `onChange`: after every change by hand. */
function outlineInHand(onChange: () => void) {
  let base: Curve;
  /** Of a refined outline that was not changed since, as files hold it. */
  let exact: OutlineData | undefined;
  let deformation = undeformed();
  const changed = (next: Deformation): void => {
    deformation = next;
    exact = undefined;
    onChange();
  };
  return {
    take(curve: Curve, data?: OutlineData): void {
      base = curve;
      deformation = undeformed();
      exact = data;
    },
    move: (handle: number, x: number, y: number) => changed(withHandle(deformation, base.mirror, handle, x, y)),
    change: (part: Partial<Deformation>) => changed({ ...deformation, ...part }),
    curve: () => deform(base, deformation),
    exact: () => exact,
    shown: () => [deformation, base.mirror] as const,
  };
}

/** Acts at most once to a frame, however often it is asked. */
function onceAFrame(act: () => void): () => void {
  let waiting = false;
  return () => {
    if (waiting) return;
    waiting = true;
    requestAnimationFrame(() => {
      waiting = false;
      act();
    });
  };
}

function button(text: string, act: () => void): HTMLElement {
  const made = make('button', { type: 'button' }, [text]);
  made.addEventListener('click', act);
  return made;
}

/** The changed outline in its joint, with the design that it comes from, and a layer for handles above. */
function livePicture(data: PageData) {
  const draw = sectionDrawing(make, data, { arrow: peakArrow(make), around: aroundChannels(make), frameAround });
  const element = make('div', { class: 'live-picture' });
  const drawn = make('div');
  const overlay = make('svg', { class: 'handles', role: 'group', 'aria-label': 'handles of the outline' });
  element.append(drawn, overlay);
  let scale: PictureScale = { size: 1, left: 0, top: 0 };
  return {
    element,
    overlay,
    scale: () => scale,
    show(channel: PageChannel, beside: PageChannel): void {
      const caseName = channel.edge?.worstCase ?? data.cases[0] ?? '';
      const svg = draw({ channel, caseName, beside }, Math.min(element.clientWidth || 600, 760));
      drawn.replaceChildren(svg);
      const [wide, high] = [Number(svg.getAttribute('width')), Number(svg.getAttribute('height'))];
      overlay.setAttribute('width', String(wide));
      overlay.setAttribute('height', String(high));
      const box = data.section?.closeUp;
      if (box === undefined) overlay.setAttribute('hidden', '');
      else scale = { size: wide / box.width, left: box.left, top: box.top };
    },
  };
}
