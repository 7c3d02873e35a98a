import { type CurveNodes, createCurveNodes } from './nodes.js';

/**
 * Channels of one outline side by side, symmetric in `x = 0` together: neighbours are mirror images in the line half way between them. The outline that is given is that
 * of the middle one, mirror-symmetric itself, or, of an even number, of the one next to the middle on the right.
 */
export interface SideBySide {
  /** At least 1. */
  readonly number: number;
  /** Between those lines, mm. One channel has none, two need none: the given outline's place says how far they are apart. */
  readonly pitch?: number;
}

/** One channel by itself. */
export const alone: SideBySide = { number: 1 };

/** Whether one lies on `x = 0`. */
export const hasMiddle = ({ number }: SideBySide): boolean => number % 2 === 1;

/** Channels on `x = 0` and on the right of it: all others are mirror images of these. */
export const onRight = ({ number }: SideBySide): number => Math.ceil(number / 2);

/** How far copy `k` is moved after it was mirrored, where `isMirrored` says so, mm. The copies of a mirror-symmetric outline are not. */
const isMirrored = (group: SideBySide, k: number): boolean => !hasMiddle(group) && k % 2 === 1;
const shiftOf = (group: SideBySide, k: number): number =>
  k === 0 ? 0 : (isMirrored(group, k) ? k + 1 : k) * group.pitch!;

/** Where what stands at `x` of the given outline stands on copy `k` of it, counted from the middle to the right. mm */
export function placeOnCopy(x: number, group: SideBySide, k: number): number {
  return (isMirrored(group, k) ? -x : x) + shiftOf(group, k);
}

/** Where another one of several channels stands: `x` of the given outline becomes `-x` where it is mirrored, then it is moved by `shift`, mm. */
export interface CopyPlace {
  readonly isMirrored: boolean;
  readonly shift: number;
}

/** Of all channels but the given one, in the order of `placedChannels`. */
export function placesOfOthers(group: SideBySide): CopyPlace[] {
  return Array.from({ length: onRight(group) }, (_, k): CopyPlace[] => {
    const right = { isMirrored: isMirrored(group, k), shift: shiftOf(group, k) };
    const image = { isMirrored: !right.isMirrored, shift: -right.shift };
    return [...(k === 0 ? [] : [right]), ...(k === 0 && hasMiddle(group) ? [] : [image])];
  }).flat();
}

/** Writes copy `k` of the given outline, counter-clockwise too: of a mirrored one, node `count - 1 - j` is the image of node `j`. */
export function writeCopy(nodes: CurveNodes, group: SideBySide, k: number, out: CurveNodes): void {
  const shift = shiftOf(group, k);
  if (isMirrored(group, k)) writeMirrorImage(nodes, out);
  else for (const of of ['x', 'y', 'dx', 'dy', 'ddx', 'ddy'] as const) out[of].set(nodes[of]);
  for (let j = 0; j < nodes.count; j++) out.x[j]! += shift;
}

/** Whether copy `k` moves as the mirror image of the given outline does. */
export const movesMirrored = isMirrored;

/** Of all channels in the order of `placedChannels`: which copy each is, or the mirror image of which. */
export function copiesOfAll(group: SideBySide): { readonly copy: number; readonly isImage: boolean }[] {
  return Array.from({ length: onRight(group) }, (_, copy) => [
    { copy, isImage: false },
    ...(copy === 0 && hasMiddle(group) ? [] : [{ copy, isImage: true }]),
  ]).flat();
}

/** Writes all channels, in that order; `out[0]` is the given one, and stays. */
export function writeAll(nodes: CurveNodes, group: SideBySide, out: readonly CurveNodes[]): void {
  for (let k = 0, n = 1; k < onRight(group); k++) {
    const copy = k === 0 ? nodes : out[n++]!;
    if (k > 0) writeCopy(nodes, group, k, copy);
    if (k > 0 || !hasMiddle(group)) writeMirrorImage(copy, out[n++]!);
  }
}

/** Where neighbours are mirror images in `x =` these, as far as the given outline sees them, mm; of a mirror-symmetric one, that on the right. */
export function mirrorLines({ number, pitch }: SideBySide): readonly number[] {
  if (number < 2) return [];
  if (number === 2) return [0];
  return number % 2 === 1 ? [pitch! / 2] : [0, pitch!];
}

/** A channel of several. */
export interface PlacedChannel {
  readonly nodes: CurveNodes;
  /** The mirror image of the one before it: its node `count - 1 - j` is the image of node `j`. */
  readonly isImage: boolean;
}

/** All channels from the middle to the right, each with its mirror image behind it, if it has one. */
export function placedChannels(nodes: CurveNodes, group: SideBySide): PlacedChannel[] {
  const all = copiesOfAll(group).map(({ isImage }, n) => ({
    nodes: n === 0 ? nodes : createCurveNodes(nodes.count),
    isImage,
  }));
  writeAll(
    nodes,
    group,
    all.map((one) => one.nodes),
  );
  return all;
}

/** Writes the mirror image of an outline in `x = 0`, counter-clockwise too: its node `count - 1 - j` is that of node `j`. */
function writeMirrorImage(nodes: CurveNodes, out: CurveNodes): void {
  const { count, x, y, dx, dy, ddx, ddy } = nodes;
  for (let j = 0, k = count - 1; j < count; j++, k--) {
    out.x[k] = -x[j]!;
    out.y[k] = y[j]!;
    out.dx[k] = dx[j]!;
    out.dy[k] = -dy[j]!;
    out.ddx[k] = -ddx[j]!;
    out.ddy[k] = ddy[j]!;
  }
}
