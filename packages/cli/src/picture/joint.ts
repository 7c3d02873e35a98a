import { type HostShape, placeInSection, type ShapeBox, shapeInSection } from '@lumenfront/core';
import type { Point } from './point.js';
import {
  FILLER,
  HAIRLINE,
  INK,
  KEY_LABEL,
  type KeyEntry,
  key,
  PAPER,
  type PictureMark,
  path,
  QUIET,
  renderSvg,
  type SymbolStyle,
  symbol,
  text,
  titleLines,
  titleText,
  wrap,
} from './render.js';
import { at, fit, type Projection, polygonPath, shapePath } from './section.js';
import { type StressScale, shades, stressColour, stressScale, stressTicks } from './shade.js';

export interface JointPictureRequest {
  readonly title: string;
  readonly shape: HostShape;
  /** The channel's edge, closed, counter-clockwise. */
  readonly outline: readonly Point[];
  /** Of several channels all others. */
  readonly others?: readonly (readonly Point[])[];
  readonly edge?: EdgeStress;
  readonly firstFailure?: FirstFailure;
}

/** Hoop stress along the edge in one load case, MPa. */
export interface EdgeStress {
  readonly caseName: string;
  /** At the points of the outline. */
  readonly hoop: readonly number[];
  /** At the points of the others. */
  readonly othersHoop?: readonly (readonly number[])[];
  readonly peak: { readonly stress: number; readonly at: Point };
}

/** Where the joint fails first. */
export interface FirstFailure {
  /** As a reader would say it: 'bend', 'channel edge'. */
  readonly place: string;
  readonly caseName: string;
  readonly loadFactor: number;
  readonly at: Point;
}

const PEAK_SIGN: SymbolStyle = { shape: 'triangle-down', size: 150, fill: PAPER, stroke: INK, strokeWidth: 2 };
const FAILURE_SIGN: SymbolStyle = {
  shape: 'M-1,-1L1,1M-1,1L1,-1M1,0A1,1,0,1,1,-1,0A1,1,0,1,1,1,0',
  size: 200,
  stroke: INK,
  strokeWidth: 2.2,
};

const WIDTH = 900;
const MARGIN = 24;
/** Room for the numbers left of the close-up. */
const RULER = 36;
const KEY_WIDTH = 226;
const BAR = { width: 16, height: 150 };

/** A design in its joint as SVG text: the whole section above, the filler enlarged below, both at true proportions. */
export async function jointPicture(request: JointPictureRequest): Promise<string> {
  const { title, shape, outline, edge, firstFailure } = request;
  const heading = titleLines(title, WIDTH - 2 * MARGIN);
  const inAxes = inSection(request);
  const whole = fit(inAxes.shape.whole, WIDTH - 2 * MARGIN, 320);
  const closeUp = fit(shape.closeUp, WIDTH - 2 * MARGIN - RULER - KEY_WIDTH - 24, 460);

  const wholeTop = 46 + heading.height;
  const closeUpTop = wholeTop + whole.height + 46;
  const closeUpLeft = MARGIN + RULER;
  const keyLeft = closeUpLeft + closeUp.width + 28;
  const legend = keyMarks(request, keyLeft, closeUpTop);

  const views: PictureMark[] = [
    view(inAxes, whole, { left: (WIDTH - whole.width) / 2, top: wholeTop }, 'overview'),
    view(request, closeUp, { left: closeUpLeft, top: closeUpTop }, 'close-up'),
  ];
  const description = [
    `${title}: section of the joint with ${channelsOf(request)} of ${outline.length} edge points`,
    edge && `peak hoop stress ${edge.peak.stress.toFixed(1)} MPa in ${edge.caseName}`,
    firstFailure && `first failure in ${firstFailure.place}`,
  ].filter((part) => part !== undefined);

  return await renderSvg({
    width: WIDTH,
    height: Math.max(closeUpTop + closeUp.height + 54, closeUpTop + legend.height + MARGIN),
    description: description.join('; '),
    marks: [
      titleText(MARGIN, 34, heading.lines),
      ...views,
      text(closeUpLeft, closeUpTop - 10, `${capital(shape.roomName)}, enlarged`, { colour: QUIET }),
      text(MARGIN, wholeTop - 8, 'Whole section', { colour: QUIET }),
      ...rulers(closeUp, shape.closeUp, closeUpLeft, closeUpTop),
      ...legend.marks,
    ],
  });
}

/** A picture's request in the axes of the section, and there the corners of what is enlarged in a frame of its own. */
interface InAxes extends JointPictureRequest {
  readonly enlarged?: readonly Point[];
}

const cornersOf = ({ xMin, xMax, yMin, yMax }: ShapeBox): Point[] => [
  [xMin, yMin],
  [xMax, yMin],
  [xMax, yMax],
  [xMin, yMax],
];

/** Without the stress along the edge, which the whole section does not show. */
function inSection(request: JointPictureRequest): InAxes {
  const { shape, outline, others = [], firstFailure, title } = request;
  const { frame } = shape;
  if (frame === undefined) return request;
  const at = (point: Point) => placeInSection(frame, point);
  return {
    title,
    shape: shapeInSection(shape),
    outline: outline.map(at),
    others: others.map((other) => other.map(at)),
    ...(firstFailure === undefined ? {} : { firstFailure: { ...firstFailure, at: at(firstFailure.at) } }),
    enlarged: cornersOf(shape.closeUp).map(at),
  };
}

function view(
  { shape, outline, others = [], edge, firstFailure, enlarged }: InAxes,
  projection: Projection,
  place: { readonly left: number; readonly top: number },
  kind: 'overview' | 'close-up',
): PictureMark {
  const shade = shades(shape.layers);
  const border = { stroke: '#7c8894', strokeWidth: kind === 'overview' ? 0.4 : 0.8 };
  const marks: PictureMark[] = [
    path(shapePath(projection, shape.room), { fill: FILLER, ...border }),
    ...shape.layers.map((layer) => path(shapePath(projection, layer.path), { fill: shade(layer), ...border })),
  ];
  for (const one of shape.openings ?? [])
    marks.push(path(shapePath(projection, one), { fill: PAPER, stroke: INK, strokeWidth: 1 }));
  const outlines = [outline, ...others];
  for (const one of outlines)
    marks.push(path(polygonPath(projection, one), { fill: PAPER, stroke: INK, strokeWidth: 1 }));

  if (kind === 'overview') {
    marks.push(
      path(polygonPath(projection, enlarged ?? cornersOf(shape.closeUp)), {
        stroke: INK,
        strokeWidth: 1,
        dash: [4, 3],
      }),
    );
  } else if (edge !== undefined) {
    const scale = stressScale(hoopsOf(edge).flat());
    hoopsOf(edge).forEach((hoop, k) => {
      marks.push(...edgeMarks(projection, outlines[k]!, hoop, scale));
    });
  }

  if (firstFailure !== undefined && within(projection, firstFailure.at))
    marks.push(symbol(projection.x(firstFailure.at[0]), projection.y(firstFailure.at[1]), FAILURE_SIGN));
  if (edge !== undefined && kind === 'close-up')
    marks.push(peakMark(projection, nearest(outlines, edge.peak.at), edge, firstFailure));
  return {
    type: 'group',
    encode: {
      enter: {
        x: { value: place.left },
        y: { value: place.top },
        width: { value: projection.width },
        height: { value: projection.height },
        clip: { value: true },
        stroke: { value: kind === 'overview' ? 'transparent' : HAIRLINE },
      },
    },
    marks,
  };
}

/** Of outlines the one that comes nearest to a point. */
function nearest(outlines: readonly (readonly Point[])[], [x, y]: Point): readonly Point[] {
  const away = (outline: readonly Point[]) => Math.min(...outline.map(([px, py]) => Math.hypot(px - x, py - y)));
  return outlines.reduce((best, outline) => (away(outline) < away(best) ? outline : best));
}

const channelsOf = ({ others = [] }: JointPictureRequest): string => {
  if (others.length === 0) return 'a channel';
  return `${others.length === 1 ? 'two' : others.length + 1} channels, each`;
};

const capital = (word: string) => word.charAt(0).toUpperCase() + word.slice(1);

function within({ x, y, width, height }: Projection, [mmX, mmY]: Point): boolean {
  return x(mmX) >= 0 && x(mmX) <= width && y(mmY) >= 0 && y(mmY) <= height;
}

/** A triangle outside the edge that points at the peak, along the edge's normal, further out where the failure sign sits on it. */
function peakMark(
  { x, y }: Projection,
  outline: readonly Point[],
  { peak }: EdgeStress,
  firstFailure: FirstFailure | undefined,
): PictureMark {
  const [left, top] = [x(peak.at[0]), y(peak.at[1])];
  const distances = outline.map(([atX, atY]) => Math.hypot(atX - peak.at[0], atY - peak.at[1]));
  const nearest = distances.indexOf(Math.min(...distances));
  const [before, after] = [outline.at(nearest - 1)!, outline[(nearest + 1) % outline.length]!];
  const length = Math.hypot(after[0] - before[0], after[1] - before[1]) || 1;
  // Outwards of a counter-clockwise edge, on the screen, where y points down.
  const [outX, outY] = [(after[1] - before[1]) / length, (after[0] - before[0]) / length];
  const covered =
    firstFailure !== undefined && Math.hypot(x(firstFailure.at[0]) - left, y(firstFailure.at[1]) - top) < 24;
  const away = covered ? 20 : 13;
  return symbol(left + away * outX, top + away * outY, {
    ...PEAK_SIGN,
    angle: (Math.atan2(outX, -outY) * 180) / Math.PI,
  });
}

/** The edge as short strokes, each in the colour of the mean stress of its ends, over a dark line that holds pale ones together. */
function edgeMarks(
  projection: Projection,
  outline: readonly Point[],
  hoop: readonly number[],
  scale: StressScale,
): PictureMark[] {
  return [
    path(polygonPath(projection, outline), { stroke: INK, strokeWidth: 7 }),
    ...outline.map((point, i) => {
      const next = (i + 1) % outline.length;
      return path(`M${at(projection, point)}L${at(projection, outline[next]!)}`, {
        stroke: stressColour(scale, (hoop[i]! + hoop[next]!) / 2),
        strokeWidth: 5,
        cap: 'round',
      });
    }),
  ];
}

/** Rulers below and left of a view whose upper left corner is at `left, top` px. */
function rulers(projection: Projection, window: ShapeBox, left: number, top: number): PictureMark[] {
  const step = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20].find((mm) => mm * projection.scale >= 48) ?? 50;
  const [bottom, label] = [top + projection.height, (mm: number) => String(Number(mm.toFixed(3)))];
  const marks: PictureMark[] = [];
  for (const mm of multiples(step, window.xMin, window.xMax)) {
    const x = left + projection.x(mm);
    marks.push(path(`M${x.toFixed(2)} ${bottom}v5`, { stroke: QUIET }));
    marks.push(text(x, bottom + 19, label(mm), { align: 'center' }));
  }
  for (const mm of multiples(step, window.yMin, window.yMax)) {
    const y = top + projection.y(mm);
    marks.push(path(`M${left} ${y.toFixed(2)}h-5`, { stroke: QUIET }));
    marks.push(text(left - 9, y + 4, label(mm), { align: 'right' }));
  }
  marks.push(text(left + projection.width / 2, bottom + 38, 'x and y, mm', { align: 'center' }));
  return marks;
}

function multiples(step: number, from: number, to: number): number[] {
  const first = Math.ceil(from / step);
  return Array.from({ length: Math.floor(to / step) - first + 1 }, (_, i) => (first + i) * step);
}

function keyMarks({ shape, edge, firstFailure }: JointPictureRequest, left: number, top: number) {
  const entries: KeyEntry[] = [];
  const outlined = { stroke: '#7c8894', strokeWidth: 0.8 };
  const shade = shades(shape.layers);
  for (const [label, layer] of shade.legend)
    entries.push({ label: [label], swatch: { fill: shade(layer), ...outlined } });
  entries.push({ label: [shape.roomName], swatch: { fill: FILLER, ...outlined } });
  const coordinates = ([x, y]: Point) => `at x ${x.toFixed(2)}, y ${y.toFixed(2)} mm`;
  if (edge !== undefined)
    entries.push({
      label: [`peak ${edge.peak.stress.toFixed(1)} MPa`, coordinates(edge.peak.at)],
      symbol: PEAK_SIGN,
    });
  if (firstFailure !== undefined)
    entries.push({
      label: [
        ...wrap(`first failure: ${firstFailure.place}`, KEY_LABEL, 2),
        ...wrap(firstFailure.caseName, KEY_LABEL, 2),
        `load factor ${firstFailure.loadFactor.toFixed(2)}`,
        coordinates(firstFailure.at),
      ],
      symbol: FAILURE_SIGN,
    });
  const barHeight = edge === undefined ? 0 : BAR.height + 64;
  const column = key(left, top + barHeight, entries);
  return {
    marks: [...(edge === undefined ? [] : colourBar(edge, left, top)), ...column.marks],
    height: barHeight + column.height,
  };
}

const hoopsOf = ({ hoop, othersHoop = [] }: EdgeStress): readonly (readonly number[])[] => [hoop, ...othersHoop];

function colourBar(edge: EdgeStress, left: number, top: number): PictureMark[] {
  const { caseName } = edge;
  const scale = stressScale(hoopsOf(edge).flat());
  const [low, high] = scale;
  const barTop = top + 36;
  const y = (stress: number) => barTop + (BAR.height * (high - stress)) / (high - low);
  const strips = 60;
  const marks: PictureMark[] = [text(left, top + 10, ['hoop stress, MPa', ...wrap(caseName, KEY_LABEL, 1)])];
  for (let i = 0; i < strips; i++) {
    const stress = high - ((high - low) * (i + 0.5)) / strips;
    // Half a pixel of overlap, so that no seam shows.
    const overlap = i === strips - 1 ? 0 : 0.5;
    marks.push(
      path(
        `M${left} ${barTop + (BAR.height * i) / strips}h${BAR.width}v${BAR.height / strips + overlap}h${-BAR.width}Z`,
        { fill: stressColour(scale, stress) },
      ),
    );
  }
  marks.push(path(`M${left} ${barTop}h${BAR.width}v${BAR.height}h${-BAR.width}Z`, { stroke: INK, strokeWidth: 0.8 }));
  for (const stress of stressTicks(scale)) {
    marks.push(path(`M${left + BAR.width} ${y(stress).toFixed(2)}h5`, { stroke: INK, strokeWidth: 0.8 }));
    marks.push(text(left + BAR.width + 10, y(stress) + 4, String(stress)));
  }
  return marks;
}
