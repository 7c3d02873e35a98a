/// <reference lib="dom" />
import { makeElement as make } from '../client/element.js';
import type { Deformation } from './deform.js';

const sliders = [
  { key: 'width', text: 'width', unit: '×', least: 0.5, most: 1.8, step: 0.01 },
  { key: 'height', text: 'height', unit: '×', least: 0.5, most: 1.8, step: 0.01 },
  { key: 'up', text: 'up', unit: 'mm', least: -1, most: 1, step: 0.01 },
  { key: 'right', text: 'right', unit: 'mm', least: -1, most: 1, step: 0.01 },
] as const;

/** The sliders, and what shows a deformation by them; a mirror-symmetric outline stays in the middle. */
export function outlineSliders(acts: { change(part: Partial<Deformation>): void; settle(): void }): {
  readonly rows: readonly HTMLElement[];
  show(deformation: Deformation, mirror: boolean): void;
} {
  const made = sliders.map(({ key, text, unit, least, most, step }) => {
    const input = make('input', { type: 'range', min: least, max: most, step, 'data-slider': key }) as HTMLInputElement;
    const output = make('output');
    input.addEventListener('input', () => acts.change({ [key]: Number(input.value) }));
    input.addEventListener('change', () => acts.settle());
    return {
      key,
      unit,
      input,
      output,
      row: make('label', { class: 'slider' }, [make('span', {}, [text]), input, output]),
    };
  });
  return {
    rows: made.map(({ row }) => row),
    show(deformation, mirror) {
      for (const { key, unit, input, output } of made) {
        input.value = String(deformation[key]);
        output.textContent = `${deformation[key].toFixed(2)} ${unit}`;
        input.disabled = key === 'right' && mirror;
      }
    },
  };
}
