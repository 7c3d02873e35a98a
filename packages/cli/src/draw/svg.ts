import type { HostShape, ShapeArc, ShapePath } from '@lumenfront/core';
import { escapeMarkup } from '../markup.js';
import { shapePathData } from '../shape-path.js';
import type { BezierChain } from './curve.js';
import { COORDINATE_DIGITS, type Drawing, outlinesOf } from './drawing.js';
import { CHANNEL_LAYER, DIE_LAYER, layerNamed, NAMES_LAYER, roomLayer, TITLE_LAYER } from './layers.js';
import { type DrawingWords, extentWords, layOut, outlineBox, type SheetText, widened } from './sheet.js';

const MARGIN = 1;

/** Coordinates as SVG writes them: y points down. */
const point = (x: number, y: number) =>
  `${Number(x.toFixed(COORDINATE_DIGITS))} ${Number((-y).toFixed(COORDINATE_DIGITS))}`;

/** Path data of a closed chain of Bézier curves. */
export function chainPath(chain: BezierChain): string {
  const parts = [`M${point(chain[0]!, chain[1]!)}`];
  for (let i = 0; i < chain.length; i += 6) {
    const end = (i + 6) % chain.length;
    parts.push(
      `C${point(chain[i + 2]!, chain[i + 3]!)} ${point(chain[i + 4]!, chain[i + 5]!)} ${point(chain[end]!, chain[end + 1]!)}`,
    );
  }
  return `${parts.join('')}Z`;
}

function linesPath({ arcs, straight }: NonNullable<HostShape['lines']>): string {
  const on = ({ centre, radius }: ShapeArc, degrees: number) => {
    const angle = (degrees * Math.PI) / 180;
    return point(centre[0] + radius * Math.cos(angle), centre[1] + radius * Math.sin(angle));
  };
  return [
    ...arcs.map((arc) => `M${on(arc, arc.start)}A${arc.radius} ${arc.radius} 0 0 0 ${on(arc, arc.end)}`),
    ...straight.map(([start, end]) => `M${point(...start)}L${point(...end)}`),
  ].join('');
}

/** How much larger than it is a drawing is printed, and the widest paper for it, mm. */
const ENLARGEMENTS = [100, 50, 20, 10, 5, 2, 1];
const PAPER_WIDTH = 190;
/** Height of letters on paper, mm. */
const LETTER = 2.8;

/**
 * An SVG whose user units are millimetres of the joint, printed at a readable enlargement that its title block states. Groups are named as the
 * layers of the DXF. Seen as a die, room and channel are one region, filled by the even-odd rule.
 */
export function toSvg(drawing: Drawing, words: DrawingWords = {}): string {
  const { shape } = drawing;
  const die = words.view === 'die';
  const window =
    shape === undefined ? widened(outlineBox(drawing), MARGIN) : die ? widened(shape.roomBox, MARGIN) : shape.closeUp;
  const width = window.xMax - window.xMin;
  const enlargement = ENLARGEMENTS.find((times) => times * width <= PAPER_WIDTH) ?? 1;
  const { box, block, texts } = layOut(drawing, words, {
    window,
    height: LETTER / enlargement,
    scale: `printed ${enlargement} : 1`,
    curve: 'smooth curves',
  });
  const channel = outlinesOf(drawing)
    .map(({ curves }) => chainPath(curves))
    .join('');
  const groups: string[] = [];
  if (shape === undefined) groups.push(layer(CHANNEL_LAYER, channel, INK));
  else if (die)
    groups.push(
      `<path id="${DIE_LAYER}" d="${pathOf(shape.room)}${channel}" fill="#e8e8e8" fill-rule="evenodd" stroke="${INK}"/>`,
    );
  else {
    const parts = (shape.parts ?? []).map(({ name, path }) => [layerNamed(name), pathOf(path)] as const);
    for (const name of new Set(parts.map(([own]) => own)))
      groups.push(
        layer(
          name,
          parts
            .filter(([own]) => own === name)
            .map(([, path]) => path)
            .join(''),
          PALE,
        ),
      );
    groups.push(layer(roomLayer(shape), pathOf(shape.room), GREY));
    if (shape.lines !== undefined)
      groups.push(layer(shape.lines.layer, linesPath(shape.lines), GREY, ' stroke-dasharray="0.4 0.2"'));
    groups.push(layer(CHANNEL_LAYER, channel, INK));
  }
  const [frameWidth, frameHeight] = [block.xMax - block.xMin, block.yMax - block.yMin];
  const line = 0.3 / enlargement;
  const size = (value: number) => Number(value.toFixed(COORDINATE_DIGITS));
  const onPaper = (mm: number) => Number((enlargement * mm).toFixed(3));
  const title = `<rect x="${size(block.xMin + line)}" y="${size(-block.yMax)}" width="${size(frameWidth - 2 * line)}" height="${size(frameHeight - line)}" stroke="${INK}"/>`;
  return `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="${onPaper(box.xMax - box.xMin)}mm" height="${onPaper(box.yMax - box.yMin)}mm" viewBox="${size(box.xMin)} ${size(-box.yMax)} ${size(box.xMax - box.xMin)} ${size(box.yMax - box.yMin)}" fill="none" stroke-width="${size(line)}" font-family="Liberation Sans, Arial, Helvetica, sans-serif">
<title>${escapeMarkup(words.title ?? 'Channel')}</title>
<desc>User units are millimetres; printed ${enlargement} : 1; ${extentWords(drawing)} ${drawing.area.toFixed(COORDINATE_DIGITS)} mm², perimeter ${drawing.perimeter.toFixed(COORDINATE_DIGITS)} mm.</desc>
<clipPath id="window"><rect x="${size(window.xMin)}" y="${size(-window.yMax)}" width="${size(width)}" height="${size(window.yMax - window.yMin)}"/></clipPath>
<g clip-path="url(#window)">
${groups.join('\n')}
</g>
<g id="${TITLE_LAYER}">${title}${lettering(texts, TITLE_LAYER)}</g>
<g id="${NAMES_LAYER}">${lettering(texts, NAMES_LAYER)}</g>
</svg>
`;
}

const [INK, GREY, PALE] = ['#000000', '#707070', '#a8a8a8'];

function pathOf(path: ShapePath): string {
  return shapePathData(
    path,
    (at) => point(...at),
    (mm) => mm,
  );
}

const layer = (id: string, path: string, stroke: string, more = '') =>
  `<path id="${id}" d="${path}" stroke="${stroke}"${more}/>`;

function lettering(texts: readonly SheetText[], wanted: SheetText['layer']): string {
  return texts
    .filter((one) => one.layer === wanted)
    .map(({ at: [x, y], height, text, centred }) => {
      const [left, top] = point(x, y).split(' ');
      const anchor = centred ? ' text-anchor="middle"' : '';
      return `<text x="${left}" y="${top}" font-size="${Number(height.toFixed(COORDINATE_DIGITS))}"${anchor} fill="${INK}" stroke="none">${escapeMarkup(text)}</text>`;
    })
    .join('');
}
