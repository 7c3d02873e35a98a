import type { ShapeBox, ShapePart, ShapePoint } from '@lumenfront/core';
import { COORDINATE_DIGITS, type Drawing, outlinesOf } from './drawing.js';
import { NAMES_LAYER, TITLE_LAYER } from './layers.js';

/** What is drawn: the channel in its joint, or what a die must give to a filler that is pultruded with its channel. */
export type DrawingView = 'joint' | 'die';

/** What a drawing says of itself. */
export interface DrawingWords {
  readonly title?: string;
  readonly view?: DrawingView;
}

/** A line of text, its baseline's start or middle at `at`. mm */
export interface SheetText {
  readonly layer: typeof NAMES_LAYER | typeof TITLE_LAYER;
  readonly at: ShapePoint;
  readonly height: number;
  readonly text: string;
  readonly centred: boolean;
}

/** A drawing with the words on it: the box of all, what is drawn in its upper part, the title block below. mm */
export interface Sheet {
  readonly box: ShapeBox;
  /** The frame of the title block. */
  readonly block: ShapeBox;
  readonly texts: readonly SheetText[];
}

/** Baselines stand so many text heights apart. */
const LEADING = 1.7;

/** Lays title block and names of parts around what is drawn in `window`; `scale` says how it is printed or drawn. */
export function layOut(
  drawing: Drawing,
  { title, view = 'joint' }: DrawingWords,
  { window, height, scale, curve }: { window: ShapeBox; height: number; scale: string; curve: string },
): Sheet {
  const lines = [
    title ?? 'Channel',
    ...(view === 'die' ? ['die of the filler with its channel: one closed region, its tips run out to nothing'] : []),
    ...(drawing.shape?.note === undefined ? [] : [drawing.shape.note]),
    `${extentWords(drawing)} ${digits(drawing.area)} mm², perimeter ${digits(drawing.perimeter)} mm`,
    `${scale}, units mm; ${curve}`,
    'preliminary: verify by test and by a qualified engineer',
  ];
  const inset = height;
  const top = window.yMin - 2 * height;
  const block: ShapeBox = {
    xMin: window.xMin,
    xMax: window.xMax,
    yMax: top,
    yMin: top - inset - LEADING * height * lines.length,
  };
  const texts = lines.map(
    (text, i): SheetText => ({
      layer: TITLE_LAYER,
      at: [block.xMin + inset, top - LEADING * height * (i + 1)],
      height,
      text,
      centred: false,
    }),
  );
  const names = view === 'die' ? [] : (drawing.shape?.parts ?? []).filter(({ nameAt }) => holds(window, nameAt));
  return {
    block,
    texts: [...texts, ...names.map((part) => nameOf(part, height))],
    box: { ...window, yMin: block.yMin },
  };
}

function nameOf({ name, nameAt: [x, y] }: ShapePart, height: number): SheetText {
  return { layer: NAMES_LAYER, at: [x, y - height / 2], height, text: name, centred: true };
}

function holds({ xMin, xMax, yMin, yMax }: ShapeBox, [x, y]: ShapePoint): boolean {
  return x >= xMin && x <= xMax && y >= yMin && y <= yMax;
}

/** Whose area follows. */
export const extentWords = ({ others = [] }: Pick<Drawing, 'others'>): string =>
  others.length === 0 ? 'channel area' : `${others.length === 1 ? 'two' : others.length + 1} channels, each of area`;

/** The box of the channels by themselves. */
export function outlineBox(drawing: Drawing): ShapeBox {
  let [xMin, xMax, yMin, yMax] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const { vertices } of outlinesOf(drawing))
    for (let i = 0; i < vertices.length; i += 2) {
      xMin = Math.min(xMin, vertices[i]!);
      xMax = Math.max(xMax, vertices[i]!);
      yMin = Math.min(yMin, vertices[i + 1]!);
      yMax = Math.max(yMax, vertices[i + 1]!);
    }
  return { xMin, xMax, yMin, yMax };
}

/** A box with `margin` mm around it. */
export function widened({ xMin, xMax, yMin, yMax }: ShapeBox, margin: number): ShapeBox {
  return { xMin: xMin - margin, xMax: xMax + margin, yMin: yMin - margin, yMax: yMax + margin };
}

export const digits = (value: number) => value.toFixed(COORDINATE_DIGITS);
