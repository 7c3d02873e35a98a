import { InputError } from '../../../errors.js';
import { type ChannelSizes, channelSizes, divide, type EdgeCurve, type Place } from '../../../mesh/triangle/index.js';
import type { Border } from '../../../outline/index.js';
import { power } from '../../../power.js';
import type { LaminateJoint } from '../laminate.js';
import type { PocketForm } from '../pocket.js';

/** Where channels end along the flat laminate, and their least wall; mm. */
export interface Extent {
  readonly left: number;
  readonly right: number;
  readonly wall: number;
}

/** A laminate with a pocket that is to be meshed, flat or folded into a larger section. */
export interface Pocketed {
  readonly laminate: Pick<LaminateJoint, 'layup' | 'pocket'>;
  readonly form: PocketForm;
  /** From the flat laminate (along from the pocket's middle, up from the bottom face) to the mesh. */
  place(s: number, y: number): Place;
  /** To where the laminate goes on to both sides of the pocket's middle. */
  readonly from: number;
  readonly to: number;
  readonly channels: ChannelSizes;
  /** Side of the triangles wanted at a place of the mesh. */
  sizeAt(x: number, y: number): number;
  readonly extent: Extent;
  readonly coarseness: number;
  readonly crack?: MeshedCrack | undefined;
}

/** A crack between two plies that begins at a pocket, made ready for its mesh; mm. */
export interface MeshedCrack {
  readonly end: 'left' | 'right';
  /** Of a slot: along the plies above it, or below; of a lens both are one. */
  readonly side: 'lower' | 'upper';
  /** From the pocket to its tip before it grows, by how many sides it does, and their length. */
  readonly length: number;
  readonly sides: number;
  readonly step: number;
  /** Sides where it begins: stresses are singular there, too. */
  readonly mouth: number;
}

/** Where a crack begins, the resin and the plies beside it are as fine as its tip: stresses are singular there, too. `flat`: from the mesh to the flat laminate. */
export function finerAtMouth(
  sizeAt: Pocketed['sizeAt'],
  flat: (x: number, y: number) => Place,
  form: PocketForm,
  crack: MeshedCrack | undefined,
): Pocketed['sizeAt'] {
  if (crack === undefined) return sizeAt;
  const { end, side, mouth } = crack;
  const s0 = end === 'left' ? -form.halfWidth : form.halfWidth;
  const y0 = form[side].at(s0);
  return (x, y) => {
    const [s, height] = flat(x, y);
    return Math.min(sizeAt(x, y), mouth + 0.5 * Math.hypot(s - s0, height - y0));
  };
}

/** Columns that run to both sides of a tip before they grow, beyond those that a crack grows by. */
const evenBeside = 2;

/** Steps from one end of a stretch to the other that start small and grow, but not beyond what is usual there. */
export function growingSteps(from: number, to: number, first: number, usual: (at: number) => number): number[] {
  const sign = Math.sign(to - from);
  const list = [from];
  for (let step = first; ; step *= 1.6) {
    const at = list.at(-1)!;
    const length = Math.min(step, usual(at));
    if (Math.abs(to - at) < 1.6 * length) return [...list, to];
    list.push(at + sign * length);
  }
}

/** Distances from a pocket to columns on that side of it where a crack runs, as far as `all`. */
function crackColumns(
  { length, sides, step, mouth }: MeshedCrack,
  all: number,
  usual: (distance: number) => number,
): number[] {
  const count = sides + 2 * evenBeside;
  const even = Array.from({ length: count + 1 }, (_, k) => length + (k - evenBeside) * step);
  // Where the crack begins it is held together like at its tip.
  const middle = even[0]! / 2;
  return [
    ...growingSteps(0, middle, mouth, usual),
    ...growingSteps(even[0]!, middle, step, usual).slice(1, -1).reverse(),
    ...even,
    ...growingSteps(even.at(-1)!, all, step, usual).slice(1),
  ];
}

/**
 * Where channels lie in the flat laminate. `border` of the pocket and `flat` (from the mesh to the flat laminate) tell. Throws `InputError` where the
 * channel does not lie in the pocket.
 */
export function extentOf(
  form: PocketForm,
  border: Border,
  flat: (x: number, y: number) => Place,
  curves: readonly EdgeCurve[],
): Extent {
  let [left, right, wall] = [0, 0, (form.upper.at(0) - form.lower.at(0)) / 4];
  if (curves.length === 0) return { left, right, wall };
  [left, right] = [Infinity, -Infinity];
  const point = new Float64Array(5);
  for (const curve of curves)
    for (let k = 0; k < 512; k++) {
      curve.at((curve.length * k) / 512, point);
      const [s] = flat(point[0]!, point[1]!);
      left = Math.min(left, s);
      right = Math.max(right, s);
      wall = Math.min(wall, border.distance(point[0]!, point[1]!));
    }
  if (!(wall > 0))
    throw new InputError({
      path: 'channel',
      expected: 'an outline inside the pocket',
      received: 'one that touches or crosses its border',
      remedy: 'move the channel or make it smaller',
    });
  return { left, right, wall };
}

/** Largest side in a pocket by its height there, mm. */
export function largestInPocket(form: PocketForm): (s: number) => number {
  const height = form.upper.at(0) - form.lower.at(0);
  return (s) => Math.min(0.2 * height, 0.6 * Math.max(form.upper.at(s) - form.lower.at(s), 0.02 * height));
}

export function sizedChannels(
  curves: readonly EdgeCurve[],
  form: PocketForm,
  border: Border,
  coarseness: number,
  largest: (x: number, y: number) => number,
): ChannelSizes {
  const least = 1e-3 * (form.upper.at(0) - form.lower.at(0));
  return channelSizes(curves, { coarseness, gap: (x, y) => Math.max(border.distance(x, y), least), largest });
}

/** Columns along a pocket and beyond it. */
export interface PocketedColumns {
  /** Along the plies below and above, all of them. */
  readonly below: readonly number[];
  readonly above: readonly number[];
  /** Distances from the tips of a lens to where the triangles begin; [0]: a slot. */
  readonly leftTip: readonly number[];
  readonly rightTip: readonly number[];
  /** Beyond the pocket, from its sides outwards. */
  readonly leftFar: readonly number[];
  readonly rightFar: readonly number[];
}

/**
 * The first slice at a lens's tip, in its half length: well within the distance from the tip at which strength is judged, a tenth. As long as that it told interfaces there 5 % too weak and the resin
 * 5 to 11 % (a lens in a bend, against itself at 0.4 of its sides).
 */
const firstSlice = 0.03;

/** `coarsest`: a column, by where it is; `given`: columns that must be there. */
export function pocketedColumns(
  { laminate, form, place, from, to, sizeAt, extent, coarseness, crack }: Pocketed,
  coarsest: (s: number) => number,
  given: { readonly left: readonly number[]; readonly right: readonly number[] } = { left: [], right: [] },
): PocketedColumns {
  const isSlot = laminate.pocket.made === 'cut';
  const a = form.halfWidth;
  const sizeOn = (s: number, side: PocketForm['lower']) => Math.min(sizeAt(...place(s, side.at(s))), coarsest(s));
  // Tips of a lens: distances from the tip, from 0 to where the triangles begin.
  const sliver = (room: number, tip: number) => {
    const first = Math.min(firstSlice * a, room / 2, coarsest(tip));
    const slices = Math.max(1, Math.ceil(Math.log(room / first) / Math.log(1 + 0.2 * coarseness)));
    return Array.from({ length: slices + 2 }, (_, k) => (k === 0 ? 0 : first * power(room / first, (k - 1) / slices)));
  };
  const roomAt = (end: number) => Math.min(0.45 * a, 0.6 * (a - end));
  const leftTip = isSlot ? [0] : sliver(roomAt(-extent.left), -a);
  const rightTip = isSlot ? [0] : sliver(roomAt(extent.right), a);
  const [start, end] = [leftTip.at(-1)! - a, a - rightTip.at(-1)!];
  const alongSide = (side: PocketForm['lower']) => [
    ...leftTip.slice(0, -1).map((s) => s - a),
    ...divided(start, end, (s) => sizeOn(s, side)),
    ...rightTip
      .slice(0, -1)
      .reverse()
      .map((s) => a - s),
  ];
  const outwards = (first: number, length: number, sign: 1 | -1) => {
    const usual = (distance: number) => Math.min(first + 0.26 * coarseness * distance, coarsest(sign * (a + distance)));
    return crack?.end === (sign === 1 ? 'right' : 'left')
      ? crackColumns(crack, length, usual)
      : Array.from(divide(length, 800, (k) => usual(((k + 0.5) * length) / 800)));
  };
  const sideSize = (s: number) => Math.min(sizeOn(s, form.lower), sizeOn(s, form.upper));
  const far = (first: number, all: number, beyond: readonly number[], sign: 1 | -1) => [
    ...outwards(first, (beyond[0] ?? all) - a, sign).map((s) => a + s),
    ...beyond.slice(1),
  ];
  const leftFar = far(
    isSlot ? sideSize(-a) : leftTip[1]!,
    -from,
    given.left.map((s) => -s),
    -1,
  ).map((s) => -s);
  const rightFar = far(isSlot ? sideSize(a) : rightTip[1]!, to, given.right, 1);
  const whole = (side: PocketForm['lower']) => [...leftFar.toReversed(), ...alongSide(side).slice(1, -1), ...rightFar];
  return { below: whole(form.lower), above: whole(form.upper), leftTip, rightTip, leftFar, rightFar };
}

/** Divides a stretch into lengths that `size` wants. */
export const divided = (from: number, to: number, size: (s: number) => number): number[] =>
  Array.from(
    divide(to - from, 800, (k) => size(from + ((k + 0.5) * (to - from)) / 800)),
    (s) => from + s,
  );
