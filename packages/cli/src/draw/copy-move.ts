import type { CopyPlace, ShapeFrame } from '@lumenfront/core';

/** `(x, y)` becomes `(xx x + xy y + x0, yx x + yy y + y0)`. */
export type CopyMove = readonly [xx: number, xy: number, yx: number, yy: number, x0: number, y0: number];

/** Where another one of several channels stands, in the axes of the section: their mirror line is that of the frame in which they are told, if there is one. mm */
export function copyMove({ isMirrored, shift }: CopyPlace, frame?: ShapeFrame): CopyMove {
  const sign = isMirrored ? -1 : 1;
  if (frame === undefined) return [sign, 0, 0, 1, shift, 0];
  const [c, s] = [Math.cos(frame.turn), Math.sin(frame.turn)];
  const [xx, xy, yy] = [sign * c * c + s * s, (sign - 1) * c * s, sign * s * s + c * c];
  const [x, y] = frame.at;
  return [xx, xy, xy, yy, x - xx * x - xy * y + c * shift, y - xy * x - yy * y + s * shift];
}

/** A chain of points, `x, y` in turn, moved. */
export function movedChain(chain: Float64Array, [xx, xy, yx, yy, x0, y0]: CopyMove): Float64Array {
  const out = new Float64Array(chain.length);
  for (let i = 0; i < chain.length; i += 2) {
    out[i] = xx * chain[i]! + xy * chain[i + 1]! + x0;
    out[i + 1] = yx * chain[i]! + yy * chain[i + 1]! + y0;
  }
  return out;
}
