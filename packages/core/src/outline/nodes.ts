/**
 * A closed outline sampled at `count` equal steps of its curve parameter `s`, counter-clockwise:
 * `s_j = -pi/2 + (j + 1/2) h`, `h = 2 pi / count`. `s = -pi/2` is the bottom and `s = pi/2` the top of an outline, so
 * that a mirror-symmetric outline has node `j` and node `count - 1 - j` as mirror images in `x = 0`.
 *
 * Lengths in mm. `dx, dy` are first and `ddx, ddy` second derivatives with respect to `s`.
 * Buffers are made once and written again for every outline.
 */
export interface CurveNodes {
  readonly count: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly dx: Float64Array;
  readonly dy: Float64Array;
  readonly ddx: Float64Array;
  readonly ddy: Float64Array;
}

/** Buffers for an outline of `count` nodes; `count` is even, so that mirror images pair up. */
export function createCurveNodes(count: number): CurveNodes {
  if (!(count >= 8 && count % 2 === 0))
    throw new RangeError(`node count: expected an even number >= 8, received ${count}`);
  const buffer = () => new Float64Array(count);
  return { count, x: buffer(), y: buffer(), dx: buffer(), dy: buffer(), ddx: buffer(), ddy: buffer() };
}

/** The curve parameter of node `j` of `count`. */
export function nodeParameter(j: number, count: number): number {
  return -Math.PI / 2 + ((j + 0.5) * 2 * Math.PI) / count;
}
