import { divide, type EdgeCurve } from '../../../mesh/triangle/index.js';
import { power } from '../../../power.js';

/** Where the laminates' columns stand along the filler's border; the same for both sides of the joint only by chance. */
export interface BorderDivision {
  /** Distances from a tip to the columns of the three slivers, from 0 to the end of the sliver; mm. */
  readonly sliver: Float64Array;
  /** Places on the base between the slivers, left to right, the slivers' ends included; mm. */
  readonly base: Float64Array;
  /** Angles on the right and left arc from the foot up, from 0 to pi/2, slivers included. */
  readonly rightArc: Float64Array;
  readonly leftArc: Float64Array;
}

/**
 * Divides the filler's border by the size wanted along it (`sizeAt`); the slivers grow evenly from the tips and end well
 * before the channel, and are no longer than `longest`.
 */
export function divideBorder(
  R: number,
  curves: readonly EdgeCurve[],
  coarseness: number,
  sizeAt: (x: number, y: number) => number,
  longest = 0.3 * R,
): BorderDivision {
  let room = longest;
  const point = new Float64Array(5);
  for (const curve of curves)
    for (let k = 0; k < 256; k++) {
      curve.at((curve.length * k) / 256, point);
      room = Math.min(room, 0.6 * (R - Math.abs(point[0]!)), 0.6 * (R - point[1]!));
    }
  const first = Math.min(0.02 * R, room / 2);
  const ratio = 1 + 0.23 * coarseness;
  const slices = Math.max(1, Math.ceil(Math.log(room / first) / Math.log(ratio)));
  const sliver = Float64Array.from({ length: slices + 2 }, (_, k) =>
    k === 0 ? 0 : first * power(room / first, (k - 1) / slices),
  );
  const left = room - R;
  const base = divide(-2 * left, 800, (k) => sizeAt(left * (1 - (k + 0.5) / 400), 0)).map((s) => left + s);
  const angle = (distance: number) => Math.asin(distance / R);
  const arc = (side: 1 | -1) => {
    const from = angle(room);
    const span = Math.PI / 2 - 2 * from;
    const middle = divide(span * R, 800, (k) => {
      const phi = from + (span * (k + 0.5)) / 800;
      return sizeAt(side * R * (1 - Math.sin(phi)), R * (1 - Math.cos(phi)));
    });
    const ends = sliver.subarray(0, -1);
    return Float64Array.of(
      ...ends.map(angle),
      ...middle.map((s) => from + s / R),
      ...ends.toReversed().map((distance) => Math.PI / 2 - angle(distance)),
    );
  };
  return { sliver, base, rightArc: arc(1), leftArc: arc(-1) };
}
