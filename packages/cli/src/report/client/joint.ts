/// <reference lib="dom" />
import type { PageChannel, PageData } from '../data.js';
import type { MakeElement } from './element.js';
import type { FitWidth } from './fit-width.js';
import type { sectionDrawing } from './section.js';
import type { PageState } from './start.js';

/** Returns a function that shows the chosen channel in the joint, and beside it the one that it is compared with. */
export function jointShown(
  make: MakeElement,
  host: HTMLElement,
  data: PageData,
  draw: ReturnType<typeof sectionDrawing>,
  fit: FitWidth,
): (state: PageState) => void {
  const words = ({ cases, strength }: PageChannel, caseName: string) => {
    const { peak, at } = cases[caseName] ?? {};
    const failure = strength?.cases[caseName];
    const place = (point: readonly [number, number]) =>
      `at ${point.map((mm) => mm.toFixed(2).replace(/^-(0\.00)$/, '$1')).join(', ')} mm`;
    return [
      ...(peak === undefined || at === undefined ? [] : [`➤ peak ${peak.toFixed(1)} MPa ${place(at)}`]),
      ...(failure === undefined
        ? []
        : [`⊗ failure starts: ${failure.place}, load factor ${failure.loadFactor.toFixed(2)}, ${place(failure.at)}`]),
    ];
  };
  let state: PageState | undefined;
  const redraw = fit(host, (width) => {
    if (state === undefined) return;
    const { index, beside, caseName } = state;
    const channel = data.designs[index]!;
    const shown = [channel, ...(beside === undefined ? [] : [beside])];
    const gap = 20;
    const across = width >= 700 ? (width - gap) / 2 : width;
    host.replaceChildren(
      ...shown.map((one, i) =>
        make('figure', { style: `width: ${across}px` }, [
          // The other one's outline stands dashed in the picture of the first.
          draw({ channel: one, caseName, ...(i === 0 && beside !== undefined ? { beside } : {}) }, across),
          make('figcaption', {}, [
            make('strong', {}, [one.name]),
            ...words(one, caseName).map((line) => make('span', {}, [line])),
            ...(i === 0 && beside !== undefined ? [make('span', {}, [`dashed: ${beside.name}`])] : []),
          ]),
        ]),
      ),
    );
  });
  return (next) => {
    state = next;
    redraw();
  };
}
