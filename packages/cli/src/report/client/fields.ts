/// <reference lib="dom" />
import type { PageData, PageField } from '../data.js';
import type { MakeElement } from './element.js';
import type { fieldDrawing } from './field.js';
import type { FitWidth } from './fit-width.js';
import type { PageState } from './start.js';

/** Returns a function that shows the stress around the chosen channel, without a channel, and around the one beside it. */
export function fieldsShown(
  make: MakeElement,
  host: HTMLElement,
  data: PageData,
  draw: ReturnType<typeof fieldDrawing>,
  fit: FitWidth,
): (state: PageState) => void {
  const solved = data.designs.filter(({ field }) => field !== undefined).map(({ name }) => name);
  const choice = document.getElementById('field-stress') as HTMLSelectElement;
  let state: PageState | undefined;
  const redraw = fit(host, (width) => {
    if (state === undefined) return;
    const { index, beside, caseName } = state;
    const channel = data.designs[index]!;
    const stress = choice.value as keyof PageField;
    const shown = [
      { name: 'without channel', cells: data.fields?.without?.[stress][caseName] },
      ...[channel, ...(beside === undefined ? [] : [beside])].map((one) => ({
        name: one.name,
        cells: one.field?.[stress][caseName],
        channel: one,
      })),
    ];
    const missing = channel.field === undefined ? [channel.name] : [];
    const drawn = shown.filter(({ cells }) => cells !== undefined);
    const columns = width >= 1000 ? Math.max(2, drawn.length) : width >= 620 ? 2 : 1;
    const across = (width - 20 * (columns - 1)) / columns;
    host.replaceChildren(
      ...drawn.map((one) =>
        make('figure', { style: `width: ${across}px` }, [
          draw(one.cells!, 'channel' in one ? one.channel : undefined, across),
          make('figcaption', {}, [
            make('strong', {}, [one.name]),
            make('span', {}, [`${choice.selectedOptions[0]!.textContent} in ${caseName}`]),
          ]),
        ]),
      ),
      ...missing.map((name) =>
        make('p', { class: 'note' }, [
          `The field around ${name} was not solved; ${solved.length === 0 ? 'none was' : `that of ${solved.join(', ')} was`}. The command report with --around solves those of the designs it names.`,
        ]),
      ),
    );
  });
  choice.addEventListener('change', redraw);
  return (next) => {
    state = next;
    redraw();
  };
}
