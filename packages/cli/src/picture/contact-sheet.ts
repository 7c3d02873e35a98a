import type { HostShape, ShapeBox } from '@lumenfront/core';
import type { Point } from './point.js';
import {
  FILLER,
  INK,
  PAPER,
  type PictureMark,
  path,
  QUIET,
  renderSvg,
  text,
  titleLines,
  titleText,
  wrap,
} from './render.js';
import { fit, polygonPath, shapePath } from './section.js';

export interface SheetDesign {
  readonly family: string;
  /** mm² */
  readonly area: number;
  /** MPa */
  readonly peak: number;
  /** The channel's edge, closed, counter-clockwise. */
  readonly outline: readonly Point[];
  /** Of several channels all but the one of `outline`. */
  readonly others?: readonly { readonly outline: readonly Point[] }[];
}

export interface ContactSheetRequest {
  readonly title: string;
  readonly designs: readonly SheetDesign[];
  /** Draws what is around every outline. */
  readonly shape?: HostShape;
}

const WIDTH = 900;
const MARGIN = 24;
const GAP = 14;
const CAPTION = 42;

function columnsFor(count: number): number {
  if (count <= 2) return 2;
  if (count <= 6) return 3;
  if (count <= 12) return 4;
  return count <= 30 ? 5 : 6;
}

function commonWindow({ designs, shape }: ContactSheetRequest): ShapeBox {
  if (shape !== undefined) return shape.roomBox;
  const points = designs.flatMap(({ outline, others = [] }) =>
    [outline, ...others.map((other) => other.outline)].flat(),
  );
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const bound = (values: readonly number[], side: 'min' | 'max') => values.reduce((a, b) => Math[side](a, b));
  if (points.length === 0) return { xMin: -1, xMax: 1, yMin: -1, yMax: 1 };
  return { xMin: bound(xs, 'min'), xMax: bound(xs, 'max'), yMin: bound(ys, 'min'), yMax: bound(ys, 'max') };
}

/** All outlines of a front at one scale, in the order given, as SVG text. */
export async function contactSheet(request: ContactSheetRequest): Promise<string> {
  const { title, designs, shape } = request;
  const heading = titleLines(title, WIDTH - 2 * MARGIN);
  const top = 34 + heading.height;
  const columns = columnsFor(designs.length);
  const tileWidth = (WIDTH - 2 * MARGIN - (columns - 1) * GAP) / columns;
  const projection = fit(commonWindow(request), tileWidth, 300);
  const tileHeight = projection.height + CAPTION + GAP;
  const rows = Math.ceil(designs.length / columns);

  const tiles = designs.map(({ family, area, peak, outline, others = [] }, i): PictureMark => {
    const middle = tileWidth / 2;
    const shift = (tileWidth - projection.width) / 2;
    const placed = { ...projection, x: (mm: number) => shift + projection.x(mm) };
    return {
      type: 'group',
      encode: {
        enter: {
          x: { value: MARGIN + (i % columns) * (tileWidth + GAP) },
          y: { value: top + Math.floor(i / columns) * tileHeight },
        },
      },
      marks: [
        ...(shape === undefined
          ? []
          : [path(shapePath(placed, shape.room), { fill: FILLER, stroke: '#7c8894', strokeWidth: 0.8 })]),
        ...[outline, ...others.map((other) => other.outline)].map((edge) =>
          path(polygonPath(placed, edge), { fill: PAPER, stroke: INK, strokeWidth: 1.4 }),
        ),
        text(middle, projection.height + 16, `${area.toPrecision(3)} mm², ${peak.toFixed(1)} MPa`, { align: 'center' }),
        text(middle, projection.height + 31, wrap(family, tileWidth, 1), { align: 'center', colour: QUIET }),
      ],
    };
  });

  const footTop = top + (designs.length === 0 ? 60 : rows * tileHeight);
  const bar = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20].find((mm) => mm * projection.scale >= 40) ?? 50;
  const foot =
    designs.length === 0
      ? [text(WIDTH / 2, top + 20, 'no design meets the brief', { align: 'center', size: 14, colour: QUIET })]
      : [
          path(`M${MARGIN} ${footTop}v8h${(bar * projection.scale).toFixed(2)}v-8`, { stroke: INK, strokeWidth: 1.4 }),
          text(MARGIN + bar * projection.scale + 8, footTop + 9, `${bar} mm; all at one scale`),
        ];
  return await renderSvg({
    width: WIDTH,
    height: footTop + 30,
    description: `${title}: outlines of ${designs.length} designs at one scale`,
    marks: [titleText(MARGIN, 34, heading.lines), ...tiles, ...foot],
  });
}
