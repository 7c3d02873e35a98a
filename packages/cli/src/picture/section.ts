import type { Point } from './point.js';

/** What a picture needs of a tee (core's `TeeJoint` is one). mm, layers from the filler outward */
export interface SectionShape {
  readonly bendRadius: number;
  readonly overlaminate: readonly SectionLayer[];
  readonly webHeight: number;
  readonly footLength: number;
  readonly skinHalfSpan: number;
  readonly skin: readonly SectionLayer[];
}

export interface SectionLayer {
  readonly thickness: number;
  readonly angle: number | 'quasi-isotropic';
}

/** A rectangle of the section, mm. */
export interface Window {
  readonly xMin: number;
  readonly xMax: number;
  readonly yMin: number;
  readonly yMax: number;
}

/** Maps mm to px by one scale in x and y; `y` points down in px. */
export interface Projection {
  /** px per mm */
  readonly scale: number;
  readonly width: number;
  readonly height: number;
  readonly x: (mm: number) => number;
  readonly y: (mm: number) => number;
}

/** The largest projection of a window that fits into `width` by `height` px. */
export function fit(window: Window, width: number, height: number): Projection {
  const scale = Math.min(width / (window.xMax - window.xMin), height / (window.yMax - window.yMin));
  return {
    scale,
    width: scale * (window.xMax - window.xMin),
    height: scale * (window.yMax - window.yMin),
    x: (mm) => scale * (mm - window.xMin),
    y: (mm) => scale * (window.yMax - mm),
  };
}

const px = (value: number) => Number(value.toFixed(2));

export function at({ x, y }: Projection, [mmX, mmY]: Point): string {
  return `${px(x(mmX))} ${px(y(mmY))}`;
}

/** Path data of a closed polygon. */
export function polygonPath(projection: Projection, points: readonly Point[]): string {
  return points.length === 0 ? '' : `M${points.map((point) => at(projection, point)).join('L')}Z`;
}

/** Path data of the filler: base and two arcs of the bend radius. */
export function fillerPath(projection: Projection, bendRadius: number): string {
  const radius = px(bendRadius * projection.scale);
  const arc = (to: Point) => `A${radius} ${radius} 0 0 1 ${at(projection, to)}`;
  return `M${at(projection, [-bendRadius, 0])}L${at(projection, [bendRadius, 0])}${arc([0, bendRadius])}${arc([-bendRadius, 0])}Z`;
}

/** Path data of one overlaminate layer between depths `from` and `to` (mm from the filler); side 1 right, -1 left. */
export function layerPath(
  projection: Projection,
  { bendRadius, webHeight, footLength }: SectionShape,
  from: number,
  to: number,
  side: 1 | -1,
): string {
  const point = (x: number, y: number) => at(projection, [side * x, y]);
  const arc = (depth: number, sweep: 0 | 1, end: string) => {
    const radius = px((bendRadius - depth) * projection.scale);
    return `A${radius} ${radius} 0 0 ${sweep} ${end}`;
  };
  const [out, back] = side === 1 ? ([0, 1] as const) : ([1, 0] as const);
  const [webTop, footEnd] = [bendRadius + webHeight, bendRadius + footLength];
  return (
    `M${point(from, webTop)}L${point(from, bendRadius)}${arc(from, out, point(bendRadius, from))}L${point(footEnd, from)}` +
    `L${point(footEnd, to)}L${point(bendRadius, to)}${arc(to, back, point(to, bendRadius))}L${point(to, webTop)}Z`
  );
}

/** The whole section, with a small margin. */
export function wholeWindow({ bendRadius, webHeight, footLength, skinHalfSpan, skin }: SectionShape): Window {
  const half = Math.max(skinHalfSpan, bendRadius + footLength);
  const depth = skin.reduce((sum, { thickness }) => sum + thickness, 0);
  const margin = 0.01 * half;
  return { xMin: -half - margin, xMax: half + margin, yMin: -depth - margin, yMax: bendRadius + webHeight + margin };
}

/** The filler and a little of what surrounds it. */
export function fillerWindow({ bendRadius }: SectionShape): Window {
  return { xMin: -1.1 * bendRadius, xMax: 1.1 * bendRadius, yMin: -0.14 * bendRadius, yMax: 1.1 * bendRadius };
}
