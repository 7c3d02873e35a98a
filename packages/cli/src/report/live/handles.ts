/// <reference lib="dom" />
import type { Curve } from '@lumenfront/core';
import { makeElement as make } from '../client/element.js';
import { handleCount, handlePlaces } from './deform.js';

/** Steps of the arrow keys, mm; with the shift key. */
const keyStep = 0.02;
const wideStep = 0.1;

/** Pixels a mm, and what lies at the left and at the top of the picture, mm with y down. */
export interface PictureScale {
  readonly size: number;
  readonly left: number;
  readonly top: number;
}

/** What becomes of a handle that the reader moves. */
export interface HandleActs {
  scale(): PictureScale;
  /** mm */
  move(handle: number, x: number, y: number): void;
  /** A drag or a key has ended. */
  settle(): void;
}

/** Handles on `overlay`, moved by mouse, finger or keys; returns what places them on an outline. */
export function outlineHandles(overlay: HTMLElement, acts: HandleActs): (curve: Curve) => void {
  const handles = Array.from({ length: handleCount }, (_, k) => makeHandle(k, acts));
  overlay.append(...handles);
  return (curve) => {
    const { size, left, top } = acts.scale();
    for (const [k, [x, y]] of handlePlaces(curve).entries()) {
      handles[k]!.setAttribute('cx', (size * (x - left)).toFixed(2));
      handles[k]!.setAttribute('cy', (size * (-y - top)).toFixed(2));
    }
  };
}

function makeHandle(k: number, { scale, move, settle }: HandleActs): HTMLElement {
  const handle = make('circle', {
    class: 'handle',
    ...{ r: 7, tabindex: 0, role: 'button' },
    'aria-label': `handle ${k + 1} of ${handleCount}: arrow keys move it`,
  });
  handle.addEventListener('keydown', (event) => {
    const step = event.shiftKey ? wideStep : keyStep;
    const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
    if (way === undefined) return;
    event.preventDefault();
    move(k, step * way[0]!, step * way[1]!);
    settle();
  });
  handle.addEventListener('pointerdown', (event) => {
    event.preventDefault();
    handle.setPointerCapture(event.pointerId);
    let [x, y] = [event.clientX, event.clientY];
    const drag = (next: PointerEvent) => {
      const { size } = scale();
      move(k, (next.clientX - x) / size, (y - next.clientY) / size);
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
}
