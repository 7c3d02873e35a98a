/// <reference lib="dom" />
import type { Curve, OutlineData } from '@lumenfront/core';
import { makeElement as make } from '../client/element.js';
import { channelFacts } from '../client/facts.js';
import { fitWidth } from '../client/fit-width.js';
import { saveFiles } from '../client/save.js';
import { sectionDrawing } from '../client/section.js';
import { tableMaker } from '../client/tables.js';
import type { PageChannel, PageData } from '../data.js';
import { deform, undeformed, withHandle } from './deform.js';
import type { LiveEngine } from './engine.js';
import { outlineHandles, type PictureScale } from './handles.js';
import { outlineSliders } from './sliders.js';

/** So long an outline lies still before it counts as at rest, ms. */
const rest = 150;

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
  let resting: ReturnType<typeof setTimeout> | undefined;
  let solved = true;
  /** What is shown was solved by few nodes. */
  let draft = false;
  let scale: PictureScale = { size: 1, left: 0, top: 0 };

  const placeHandles = outlineHandles(overlay, {
    scale: () => scale,
    move(handle, x, y) {
      deformation = withHandle(deformation, base.mirror, handle, x, y);
      changed();
    },
    settle,
  });
  const inputs = outlineSliders({
    change(part) {
      deformation = { ...deformation, ...part };
      changed();
    },
    settle,
  });

  /** Files of the outline before are those of another now. */
  function unsettle(): void {
    clearTimeout(resting);
    saving.replaceChildren();
  }

  /** At most one solve to a frame. */
  function changed(): void {
    exact = undefined;
    unsettle();
    if (waiting) return;
    waiting = true;
    requestAnimationFrame(() => {
      waiting = false;
      update(true);
    });
  }

  /** `moving`: by few nodes, which serve until the outline comes to rest. */
  function update(moving: boolean): void {
    performance.mark('outline changed');
    const curve = deform(base, deformation);
    const judged = engine.judge(curve, moving);
    draft = moving;
    solved = typeof judged !== 'string';
    if (typeof judged === 'string') status.textContent = judged;
    else {
      status.textContent = engine.missed(judged);
      const { name } = data.designs[index]!;
      channel = { ...judged, parameters: {}, name: 'changed', place: [0, 0], caption: `${name}, changed by hand` };
      show();
    }
    inputs.show(deformation, base.mirror);
    placeHandles(curve);
    performance.measure(moving ? 'outline update' : 'outline at rest', 'outline changed');
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

  /** What takes longer than a frame, once a change has come to rest. */
  function settle(): void {
    unsettle();
    resting = setTimeout(() => {
      if (draft) update(false);
      if (channel === undefined || !solved) return;
      saving.append(save(index, { ...channel, files: engine.files(deform(base, deformation), exact) }, 'changed-'));
    }, rest);
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
    update(false);
    exact = found.data;
    settle();
  }

  function begin(next: number): void {
    index = next;
    base = engine.outline(next);
    deformation = undeformed();
    update(false);
    settle();
  }

  host.replaceChildren(
    make('div', { class: 'live' }, [
      picture,
      make('div', {}, [
        ...inputs.rows,
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
    if (channel !== undefined) update(false);
  });
  return begin;
}
