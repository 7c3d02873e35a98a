import type { ShapeBox, ShapePath } from '@lumenfront/core';
import { shapePathData } from '../shape-path.js';
import type { Point } from './point.js';

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
export function fit(window: ShapeBox, width: number, height: number): Projection {
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

/** Path data of a closed path of lines and arcs. */
export function shapePath(projection: Projection, path: ShapePath): string {
  return shapePathData(
    path,
    (point) => at(projection, point),
    (mm) => px(mm * projection.scale),
  );
}
