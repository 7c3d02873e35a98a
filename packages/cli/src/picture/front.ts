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

/** A design or the reference as a point of the front: mm² and MPa. */
export interface FrontPoint {
  readonly area: number;
  readonly peak: number;
  /** Where it stands on the axes, if those are not area and peak. */
  readonly place?: readonly [x: number, y: number];
}

export interface FrontAxis {
  readonly title: string;
  /** Empty for a figure without unit. */
  readonly unit: string;
}

/** What a front trades, if not area against peak edge stress. */
export interface FrontAxes {
  readonly x: FrontAxis;
  readonly y: FrontAxis;
}

export interface FrontPictureRequest {
  readonly title: string;
  readonly designs: ReadonlyArray<FrontPoint & { readonly family: string }>;
  readonly reference?: FrontPoint;
  /** Allowed peak edge stress, MPa; drawn where the peak has an axis. */
  readonly allow?: number;
  readonly axes?: FrontAxes;
  readonly picked?: FrontPoint;
}

/** Shape and shade of the families, in the order in which they first appear; lightness falls and rises, shapes never repeat. */
const FAMILY_SIGNS: readonly SymbolStyle[] = [
  { shape: 'circle', size: 64, fill: '#17406b', stroke: '#17406b' },
  { shape: 'square', size: 58, fill: '#f0bb55', stroke: '#6b4a0c' },
  { shape: 'triangle-up', size: 72, fill: '#2f9c95', stroke: '#0d4b47' },
  { shape: 'diamond', size: 80, fill: '#ffffff', stroke: '#8c2f52', strokeWidth: 1.6 },
  { shape: 'triangle-down', size: 72, fill: '#8c2f52', stroke: '#8c2f52' },
  { shape: 'circle', size: 58, fill: '#ffffff', stroke: '#17406b', strokeWidth: 1.6 },
  { shape: 'square', size: 52, fill: '#ffffff', stroke: '#6b4a0c', strokeWidth: 1.6 },
];

export function familySign(index: number): SymbolStyle {
  return FAMILY_SIGNS[index % FAMILY_SIGNS.length]!;
}

const REFERENCE_SIGN: SymbolStyle = { shape: 'cross', size: 110, fill: INK, stroke: INK };
const PICKED_SIGN: SymbolStyle = { shape: 'circle', size: 300, stroke: INK, strokeWidth: 2 };

const PLOT = { width: 560, height: 400 };
const PADDING = { left: 84, right: 250, bottom: 56 };

/** A domain that holds the values with room at both ends, whatever their number; never below zero. */
export function paddedDomain(values: readonly number[]): [number, number] {
  if (values.length === 0) return [0, 1];
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const room = most > least ? 0.08 * (most - least) : 0.1 * Math.abs(most) || 1;
  return [Math.max(0, least - room), most + room];
}

const usualAxes: FrontAxes = {
  x: { title: 'channel area', unit: 'mm²' },
  y: { title: 'peak edge stress, worst case', unit: 'MPa' },
};

/** Where a point stands on the axes. */
export const frontPlace = ({ area, peak, place }: FrontPoint): readonly [x: number, y: number] => place ?? [area, peak];

const behind = (text: string, unit: string) => (unit === '' ? text : `${text} ${unit}`);

/** The two figures of a point. */
export function frontFigures(point: FrontPoint, axes: FrontAxes | undefined): string {
  const [x, y] = frontPlace(point);
  if (axes === undefined) return `${x.toPrecision(3)} mm², ${y.toFixed(1)} MPa`;
  return `${behind(x.toPrecision(3), axes.x.unit)}, ${behind(`${axes.y.title} ${y.toPrecision(3)}`, axes.y.unit)}`;
}

/** `channel area, mm²`. */
export const frontAxisTitle = ({ title, unit }: FrontAxis): string => (unit === '' ? title : `${title}, ${unit}`);

const atData = (point: FrontPoint, style: SymbolStyle): PictureMark => {
  const mark = symbol(0, 0, style);
  Object.assign(mark.encode!.enter!, {
    x: { scale: 'x', value: frontPlace(point)[0] },
    y: { scale: 'y', value: frontPlace(point)[1] },
  });
  return mark;
};

/** The front: channel area against peak edge stress, or what its axes say, as SVG text. */
export async function frontPicture(request: FrontPictureRequest): Promise<string> {
  const { title, designs, reference, axes, picked } = request;
  const allow = axes === undefined ? request.allow : undefined;
  const { x, y } = axes ?? usualAxes;
  const figures = (point: FrontPoint) => frontFigures(point, axes);
  const families = [...new Set(designs.map((design) => design.family))];
  const points = [...designs, ...(reference ? [reference] : []), ...(picked ? [picked] : [])];
  const heading = titleLines(title, PADDING.left + PLOT.width + PADDING.right - 32);
  const top = 24 + heading.height;

  const entries: KeyEntry[] = families.map((family, i) => ({
    label: wrap(family, KEY_LABEL, 2),
    symbol: familySign(i),
  }));
  if (reference !== undefined)
    entries.push({ label: ['reference channel', figures(reference)], symbol: REFERENCE_SIGN });
  if (picked !== undefined) entries.push({ label: ['picked design', figures(picked)], symbol: PICKED_SIGN });
  if (allow !== undefined)
    entries.push({
      label: [`allowed peak, ${Number(allow.toFixed(1))} MPa`],
      line: { stroke: INK, strokeWidth: 1.5, dash: [6, 4] },
    });

  const marks: PictureMark[] = [
    titleText(-PADDING.left + 16, -top + 30, heading.lines),
    ...(allow === undefined
      ? []
      : [
          {
            type: 'rule' as const,
            encode: {
              enter: {
                x: { value: 0 },
                x2: { value: PLOT.width },
                y: { scale: 'y', value: allow },
                stroke: { value: INK },
                strokeWidth: { value: 1.5 },
                strokeDash: { value: [6, 4] },
              },
            },
          },
        ]),
    ...designs.map((design) => atData(design, familySign(families.indexOf(design.family)))),
    ...(reference ? [atData(reference, REFERENCE_SIGN)] : []),
    ...(picked ? [atData(picked, PICKED_SIGN)] : []),
    ...(designs.length === 0
      ? [
          text(PLOT.width / 2, PLOT.height / 4, 'no design meets the brief', {
            align: 'center',
            size: 14,
            colour: QUIET,
          }),
        ]
      : []),
    ...key(PLOT.width + 28, 0, entries).marks,
  ];

  return await renderSvg({
    width: PLOT.width,
    height: PLOT.height,
    padding: { ...PADDING, top },
    description: `${title}: ${designs.length} designs, ${axes === undefined ? 'channel area in mm² against peak edge stress in MPa' : `${frontAxisTitle(x)} against ${frontAxisTitle(y)}`}`,
    scales: [
      {
        name: 'x',
        type: 'linear',
        range: [0, PLOT.width],
        domain: paddedDomain(points.map((point) => frontPlace(point)[0])),
        zero: false,
        nice: true,
      },
      {
        name: 'y',
        type: 'linear',
        range: [PLOT.height, 0],
        domain: paddedDomain([...points.map((point) => frontPlace(point)[1]), ...(allow === undefined ? [] : [allow])]),
        zero: false,
        nice: true,
      },
    ],
    axes: [
      { scale: 'x', orient: 'bottom', title: frontAxisTitle(x), grid: true, tickCount: 7 },
      {
        scale: 'y',
        orient: 'left',
        title: frontAxisTitle(y),
        grid: true,
        tickCount: 7,
      },
      { scale: 'x', orient: 'top', ticks: false, labels: false, domainColor: HAIRLINE },
      { scale: 'y', orient: 'right', ticks: false, labels: false, domainColor: HAIRLINE },
    ],
    marks,
  });
}
