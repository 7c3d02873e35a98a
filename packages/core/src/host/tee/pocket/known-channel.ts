import { InputError } from '../../../errors.js';
import type { Border } from '../../../outline/index.js';
import type { Host } from '../../contract.js';
import { boxAround } from '../../shape.js';
import { teeFillerBorder } from '../border.js';
import type { KnownOutline, TeeJoint } from '../tee.js';

/** How the filler's own elements make room for a channel of known outline; lengths in mm. */
export interface FillerOpening {
  /** Ends and middles of its sides by turns. */
  readonly x: readonly number[];
  readonly y: readonly number[];
  /** Of the filler, what lies nearer to its tips stays in its usual elements. */
  readonly tips: { readonly left: number; readonly right: number; readonly top: number };
  /** The longest side along the filler's border between them. */
  readonly step: number;
}

/** Share of the way from a tip to the channel that stays in usual elements, and at most, in bend radii. */
const toChannel = 0.6;
const mostAtTip = 0.3;

/** `finer`: sides along the filler's border are so many times as short. */
export function fillerOpening({ bendRadius: R }: TeeJoint, outline: KnownOutline, finer: number): FillerOpening {
  const x = outline.map((point) => point[0]);
  const y = outline.map((point) => point[1]);
  const tip = (room: number) => Math.min(mostAtTip * R, toChannel * room);
  const tips = { left: tip(R + Math.min(...x)), right: tip(R - Math.max(...x)), top: tip(R - Math.max(...y)) };
  // How far the sides of a tip are apart there: of the two below a line and an arc, of the upper one two arcs.
  const apart = Math.min(Math.min(tips.left, tips.right) ** 2 / (2 * R), tips.top ** 2 / R);
  return { x, y, tips, step: Math.min(knownWall(outline, teeFillerBorder(R), 'filler'), apart / 1.4) / finer };
}

/** The least distance of an outline from a border. Throws `InputError` where no elements go round it. */
export function knownWall(outline: KnownOutline, border: Border, of: 'filler' | 'pocket'): number {
  const wall = Math.min(...outline.map(([x, y]) => border.distance(x, y)));
  if (wall > 0 && outline.length % 2 === 0) return wall;
  throw new InputError({
    path: `host.${of}.channel`,
    expected: `an even number of points inside the ${of}`,
    received: `${outline.length}, wall ${about(wall)} mm`,
    remedy: 'move it, or make it smaller',
  });
}

/** Points stand beside the outermost places: three digits hold of those. */
export const about = (value: number) => String(Number(value.toPrecision(3)));

/** Of the channel of known outline beside it, if there is one. */
export function knownSummary(joint: TeeJoint): Host['summary'] {
  if (joint.fillerChannel === undefined) return [];
  const { fillerChannel, bendRadius } = joint;
  const { xMin, xMax, yMin, yMax } = boxAround(fillerChannel);
  return [
    [
      'channel in the filler',
      `of known outline, ${about(xMax - xMin)} by ${about(yMax - yMin)} mm, wall ${about(knownWall(fillerChannel, teeFillerBorder(bendRadius), 'filler'))} mm`,
    ],
  ];
}
