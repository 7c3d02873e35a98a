import type { Mark, Spec } from 'vega';
import { escapeMarkup } from '../markup.js';
import { textWidth } from './advance-widths.js';

/** Colours of all pictures; each family of shades also differs in lightness, so that a grey print tells them apart. */
export const INK = '#1c2530';
export const QUIET = '#5a6672';
export const HAIRLINE = '#c9d0d7';
/** The widest label of a key, px. */
export const KEY_LABEL = 190;
export const PAPER = '#ffffff';
export const FILLER = '#f6ead0';
const FONT = 'Liberation Sans, Arial, Helvetica, sans-serif';

/** A mark of a picture; vega's own type, named once. */
export type PictureMark = Mark;

export interface Canvas {
  readonly width: number;
  readonly height: number;
  /** What a screen reader says. */
  readonly description: string;
  readonly marks: readonly PictureMark[];
  readonly scales?: Spec['scales'];
  readonly axes?: Spec['axes'];
  readonly padding?: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
}

/** SVG text of a picture, the same for the same input. Vega is loaded here, because it takes a fifth of a second. */
export async function renderSvg({ width, height, description, marks, scales, axes, padding }: Canvas): Promise<string> {
  const vega = await import('vega');
  const spec: Spec = {
    $schema: 'https://vega.github.io/schema/vega/v6.json',
    width,
    height,
    padding: padding ?? 0,
    autosize: 'none',
    background: PAPER,
    description,
    marks: [...marks],
    ...(scales === undefined ? {} : { scales }),
    ...(axes === undefined ? {} : { axes }),
    config: {
      text: { font: FONT, fill: INK, fontSize: 12 },
      axis: {
        labelFont: FONT,
        titleFont: FONT,
        labelColor: INK,
        titleColor: INK,
        labelFontSize: 12,
        titleFontSize: 13,
        titleFontWeight: 'normal',
        domainColor: QUIET,
        tickColor: QUIET,
        gridColor: '#e6eaee',
      },
      // Room for seven characters. Vega would measure the labels: otherwise in a browser, with its fonts, than in Node.
      axisBottom: { titleY: 30 },
      axisLeft: { titleX: -66 },
    },
  };
  const svg = await new vega.View(vega.parse(spec), { renderer: 'none' }).toSVG();
  return renumberClips(svg).replace('<svg ', () => `<svg role="img" aria-label="${escapeMarkup(description)}" `);
}

/** Vega numbers clip paths through the whole process; here they start anew in every picture. */
function renumberClips(svg: string): string {
  const numbers = new Map<string, number>();
  return svg.replace(/(clip-path="url\(#|<clipPath id=")clip(\d+)/g, (_, before: string, id: string) => {
    if (!numbers.has(id)) numbers.set(id, numbers.size + 1);
    return `${before}clip${numbers.get(id)}`;
  });
}

/** Breaks text at spaces, inside a word where it must, into at most `most` lines of `width` px; an ellipsis says what is cut. */
export function wrap(
  content: string,
  width: number,
  most: number,
  { size = 12, bold = false }: TextStyle = {},
): string[] {
  const fits = (line: string) => textWidth(line, size, bold) <= width;
  const lines = [''];
  for (const word of content.split(/\s+/)) {
    const line = lines.at(-1)!;
    const longer = line === '' ? word : `${line} ${word}`;
    if (fits(longer)) {
      lines[lines.length - 1] = longer;
      continue;
    }
    if (line !== '') lines.push('');
    for (const character of word) {
      if (!fits(lines.at(-1)! + character)) lines.push('');
      lines[lines.length - 1] += character;
    }
  }
  if (lines.length <= most) return lines;
  const kept = lines.slice(0, most);
  let last = kept[most - 1]!;
  while (last !== '' && !fits(`${last}…`)) last = [...last].slice(0, -1).join('');
  kept[most - 1] = `${last}…`;
  return kept;
}

const TITLE = { size: 16, bold: true } as const;

/** Title lines that fit into `width` px, and the height they take. */
export function titleLines(title: string, width: number): { readonly lines: string[]; readonly height: number } {
  const lines = wrap(title, width, 3, TITLE);
  return { lines, height: 1.3 * TITLE.size * lines.length };
}

export function titleText(x: number, y: number, lines: string[]): PictureMark {
  return text(x, y, lines, TITLE);
}

export interface TextStyle {
  readonly size?: number;
  readonly bold?: boolean;
  readonly colour?: string;
  readonly align?: 'left' | 'center' | 'right';
}

/** Text with its first baseline at `x, y` px. */
export function text(x: number, y: number, content: string | string[], style: TextStyle = {}): PictureMark {
  return {
    type: 'text',
    encode: {
      enter: {
        x: { value: x },
        y: { value: y },
        text: { value: content },
        fontSize: { value: style.size ?? 12 },
        fontWeight: { value: style.bold ? 'bold' : 'normal' },
        fill: { value: style.colour ?? INK },
        align: { value: style.align ?? 'left' },
        lineHeight: { value: (style.size ?? 12) * 1.3 },
      },
    },
  };
}

export interface PathStyle {
  readonly fill?: string;
  readonly stroke?: string;
  readonly strokeWidth?: number;
  readonly dash?: readonly number[];
  readonly cap?: 'butt' | 'round';
}

/** SVG path data in px. */
export function path(data: string, style: PathStyle): PictureMark {
  return {
    type: 'path',
    aria: false,
    encode: {
      enter: {
        path: { value: data },
        fill: { value: style.fill ?? 'transparent' },
        stroke: { value: style.stroke ?? 'transparent' },
        strokeWidth: { value: style.strokeWidth ?? 1 },
        strokeJoin: { value: 'round' },
        strokeCap: { value: style.cap ?? 'butt' },
        ...(style.dash === undefined ? {} : { strokeDash: { value: [...style.dash] } }),
      },
    },
  };
}

export interface SymbolStyle extends PathStyle {
  /** One of vega's symbol names, or path data within a box from -1 to 1. */
  readonly shape: string;
  /** Area of the symbol's box, px². */
  readonly size: number;
  /** Degrees, clockwise. */
  readonly angle?: number;
}

export function symbol(x: number, y: number, style: SymbolStyle): PictureMark {
  return {
    type: 'symbol',
    aria: false,
    encode: {
      enter: {
        x: { value: x },
        y: { value: y },
        shape: { value: style.shape },
        size: { value: style.size },
        angle: { value: style.angle ?? 0 },
        fill: { value: style.fill ?? 'transparent' },
        stroke: { value: style.stroke ?? 'transparent' },
        strokeWidth: { value: style.strokeWidth ?? 1 },
      },
    },
  };
}

/** One entry of a key: a symbol, a swatch or a line, and what it stands for. */
export interface KeyEntry {
  readonly label: readonly string[];
  readonly symbol?: SymbolStyle;
  readonly swatch?: PathStyle;
  readonly line?: PathStyle;
}

const KEY_LINE = 16;

/** A key as a column with its upper left corner at `x, y` px, beside the data and never over it. */
export function key(x: number, y: number, entries: readonly KeyEntry[]): { marks: PictureMark[]; height: number } {
  const marks: PictureMark[] = [];
  let top = y;
  for (const { label, symbol: sign, swatch, line } of entries) {
    const middle = top + KEY_LINE / 2;
    if (sign !== undefined) marks.push(symbol(x + 9, middle, sign));
    if (swatch !== undefined) marks.push(path(`M${x} ${middle - 6}h18v12h-18Z`, swatch));
    if (line !== undefined) marks.push(path(`M${x} ${middle}h18`, line));
    marks.push(text(x + 26, middle + 4, [...label]));
    top += label.length * KEY_LINE + 6;
  }
  return { marks, height: top - y };
}
