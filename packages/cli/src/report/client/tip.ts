/// <reference lib="dom" />
import type { MakeElement } from './element.js';

/** What a design is, beside its point: told while that is aimed at or has the focus. */
export function designTip(make: MakeElement, host: HTMLElement) {
  const element = make('div', { class: 'tip', hidden: '' });
  return {
    element,
    show(text: string, x: number, y: number) {
      element.textContent = text;
      element.hidden = false;
      const room = host.clientWidth - element.offsetWidth;
      element.style.left = `${Math.max(0, Math.min(room, x - element.offsetWidth / 2))}px`;
      element.style.top = `${y > element.offsetHeight + 16 ? y - element.offsetHeight - 14 : y + 16}px`;
    },
    hide() {
      element.hidden = true;
    },
  };
}
