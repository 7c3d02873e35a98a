import { familySign, paddedDomain } from './front.js';
import {
  HAIRLINE,
  INK,
  KEY_LABEL,
  type KeyEntry,
  key,
  type PictureMark,
  QUIET,
  renderSvg,
  type SymbolStyle,
  symbol,
  text,
  titleLines,
  titleText,
  wrap,
} from './render.js';

/** A place on the horizontal axis: a number, or one of its words. */
export type Place = number | string;

export interface SeriesPictureRequest {
  readonly title: string;
  /** Titles with their unit; `words` in their order for an axis of words. */
  readonly x: { readonly title: string; readonly words?: readonly string[] };
  readonly y: { readonly title: string };
  readonly series: ReadonlyArray<{
    /** Left out where there is but one. */
    readonly label?: string;
    readonly points: ReadonlyArray<{ readonly x: Place; readonly y: number }>;
  }>;
  /** Whether the points of a series follow one another along a line. */
  readonly joined: boolean;
  /** Places without a value, and what that means. */
  readonly missing?: { readonly label: string; readonly places: readonly Place[] };
}

const PLOT = { width: 560, height: 400 };
const PADDING = { left: 84, right: 250, bottom: 56 };

/** Series that are told apart; further ones share a sign. */
const TOLD_APART = 7;
const FURTHER_SIGN: SymbolStyle = { shape: 'circle', size: 18, fill: QUIET, stroke: QUIET };
const MISSING_SIGN: SymbolStyle = { shape: 'cross', angle: 45, size: 70, fill: INK, stroke: INK };

const signOf = (index: number) => (index < TOLD_APART ? familySign(index) : FURTHER_SIGN);

/** Several series of values in one plot, as SVG text. */
export async function seriesPicture(request: SeriesPictureRequest): Promise<string> {
  const { title, x, y, series, joined, missing } = request;
  const heading = titleLines(title, PADDING.left + PLOT.width + PADDING.right - 32);
  const top = 24 + heading.height;
  const points = series.flatMap((one) => one.points);
  const places = [...points.map((point) => point.x), ...(missing?.places ?? [])];
  const marks: PictureMark[] = [
    titleText(-PADDING.left + 16, -top + 30, heading.lines),
    ...(joined ? series.flatMap((one, i) => linesOf(one.points, signOf(i))) : []),
    ...series.flatMap((one, i) => one.points.map((point) => at(point.x, point.y, signOf(i)))),
    ...(missing?.places ?? []).map((place) => at(place, undefined, MISSING_SIGN)),
    ...(points.length === 0
      ? [text(PLOT.width / 2, PLOT.height / 4, 'no values', { align: 'center', size: 14, colour: QUIET })]
      : []),
    ...key(PLOT.width + 28, 0, keyOf(request)).marks,
  ];
  return await renderSvg({
    width: PLOT.width,
    height: PLOT.height,
    padding: { ...PADDING, top },
    description: `${title}: ${y.title} against ${x.title}`,
    scales: [
      x.words === undefined
        ? {
            name: 'x',
            type: 'linear',
            range: [0, PLOT.width],
            domain: spread(places as number[]),
            zero: false,
            nice: true,
          }
        : { name: 'x', type: 'point', range: [0, PLOT.width], domain: [...x.words], padding: 0.5 },
      {
        name: 'y',
        type: 'linear',
        range: [PLOT.height, 0],
        domain: paddedDomain(points.map((point) => point.y)),
        zero: false,
        nice: true,
      },
    ],
    axes: [
      {
        scale: 'x',
        orient: 'bottom',
        title: x.title,
        grid: true,
        ...(x.words === undefined
          ? { tickCount: 7 }
          : { labelLimit: Math.max(24, PLOT.width / x.words.length - 8), labelOverlap: 'greedy' as const }),
      },
      { scale: 'y', orient: 'left', title: y.title, grid: true, tickCount: 7 },
      { scale: 'x', orient: 'top', ticks: false, labels: false, domainColor: HAIRLINE },
      { scale: 'y', orient: 'right', ticks: false, labels: false, domainColor: HAIRLINE },
    ],
    marks,
  });
}

/** A domain with room at both ends, on either side of zero. */
function spread(values: readonly number[]): [number, number] {
  if (values.length === 0) return [0, 1];
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const room = most > least ? 0.05 * (most - least) : 0.1 * Math.abs(most) || 1;
  return [least - room, most + room];
}

/** A sign at values of the axes; without `y` at the lower edge of the plot. */
function at(x: Place, y: number | undefined, style: SymbolStyle): PictureMark {
  const mark = symbol(0, PLOT.height - 10, style);
  Object.assign(mark.encode!.enter!, {
    x: { scale: 'x', value: x },
    ...(y === undefined ? {} : { y: { scale: 'y', value: y } }),
  });
  return mark;
}

function linesOf(
  points: ReadonlyArray<{ readonly x: Place; readonly y: number }>,
  { stroke = QUIET }: SymbolStyle,
): PictureMark[] {
  return points.slice(1).map((to, i) => ({
    type: 'rule',
    aria: false,
    encode: {
      enter: {
        x: { scale: 'x', value: points[i]!.x },
        y: { scale: 'y', value: points[i]!.y },
        x2: { scale: 'x', value: to.x },
        y2: { scale: 'y', value: to.y },
        stroke: { value: stroke },
        strokeWidth: { value: 1 },
        strokeOpacity: { value: 0.6 },
      },
    },
  }));
}

function keyOf({ series, missing }: SeriesPictureRequest): KeyEntry[] {
  const entries: KeyEntry[] = series
    .slice(0, TOLD_APART)
    .flatMap(({ label }, i) => (label === undefined ? [] : [{ label: wrap(label, KEY_LABEL, 2), symbol: signOf(i) }]));
  if (series.length > TOLD_APART) entries.push({ label: [`${series.length - TOLD_APART} more`], symbol: FURTHER_SIGN });
  if (missing !== undefined && missing.places.length > 0)
    entries.push({ label: wrap(missing.label, KEY_LABEL, 2), symbol: MISSING_SIGN });
  return entries;
}
