import { InputError } from '../../errors.js';
import { graded, growing, withMiddles } from '../../mesh/quad/index.js';
import type { Border } from '../../outline/index.js';
import type { RoomWish } from '../contract.js';
import type { PlaceMaps } from '../place-maps.js';
import type { ContourData } from '../reduced-model.js';
import type { LaminateJoint } from './laminate.js';
import { type LensSize, lensForm, type PocketForm, pocketForm, type Side } from './pocket.js';

/**
 * The control contour of a pocket: its border moved inwards by `inset`, cut down to the room that channels may use, with round ends. Resin
 * beyond it is host. Right half as quadratic edges from the axis at the bottom, counter-clockwise to the axis at the top.
 */
export interface ControlContour extends Border {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Edges before the end's lower and its upper corner. */
  readonly lowerEnd: number;
  readonly upperStart: number;
  /** Largest x, and where its end begins to be round. */
  readonly end: number;
  readonly roundFrom: number;
  readonly inset: number;
  /** Half width over half height. */
  readonly aspect: number;
  /** The usual length of its edges. */
  readonly step: number;
  readonly data: ContourData;
}

/** Share of the wall between pocket and contour. */
const insetOfWall = 0.6;

/** Longest edge, in insets. */
const stepOfInset = 0.8;

/** A slimmer room would take polynomials of more than degree 90. */
const mostAspect = 10;

/**
 * Degree of the regular fields in a room of this aspect; the contour must have twice as many edges to a half. In a slot of 6.7 the peak of a
 * circle at a wall of 0.05 mm errs by 1 % with degree 28, 0.6 with 48, 0.1 with 64.
 */
export const degreeFor = (aspect: number): number => 2 * Math.ceil(Math.max(28, 9 * aspect) / 2);

/** By how much the degree of the fields that tell the stresses at places is higher. */
export const higherAtPlaces = 16;

/** Points across the height of the contour there. */
const across = 12;

/** Where the resin is looked at without channel. */
export function innerGrid({ y, end }: ControlContour): NonNullable<PlaceMaps['inner']> {
  const [bottom, top] = [y[0]!, y.at(-1)!];
  return { xMin: -end, xMax: end, yMin: bottom, yMax: top, step: (top - bottom) / across };
}

/** What a channel is limited to where nothing is asked: width over height of the pocket. */
export const usualAspect = 6;

/** Half the width that channels may use. */
export function halfRoom(form: PocketForm, { wall, edgeRadius, largest }: Omit<RoomWish, 'mirror'>): number {
  const height = form.upper.at(0) - form.lower.at(0);
  return Math.min((largest?.width ?? usualAspect * height) / 2, innermost(form, wall + edgeRadius).x + edgeRadius);
}

/** Centre of the circle of `radius` that touches both curves, or the side of a slot and stands in the middle of its height. */
function innermost(form: PocketForm, radius: number): { x: number; y: number } {
  let [near, far] = [0, form.halfWidth];
  for (let pass = 0; pass < 60; pass++) {
    const middle = (near + far) / 2;
    if (form.distance(middle, middleAt(form, middle)) > radius) near = middle;
    else far = middle;
  }
  return { x: near, y: middleAt(form, near) };
}

/** Where at `x` both curves are equally far. */
function middleAt({ lower, upper }: PocketForm, x: number): number {
  const gap = (of: Side, y: number) => {
    const foot = of.nearest(x, y);
    return Math.hypot(foot - x, of.at(foot) - y);
  };
  let [low, high] = [lower.at(x), upper.at(x)];
  for (let pass = 0; pass < 60; pass++) {
    const middle = (low + high) / 2;
    if (gap(lower, middle) < gap(upper, middle)) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Far beyond what can be solved (`checkEffort` says what): so many are counted, no more laid out. */
const mostEdges = 100_000;

/** Throws `InputError` where wall and edge radius leave no room or ask for edges without end, or the room is too slim. */
export function controlContour(
  joint: Pick<LaminateJoint, 'layup' | 'pocket'>,
  wish: Omit<RoomWish, 'mirror'>,
  refinement = 1,
): ControlContour {
  const { wall, edgeRadius } = wish;
  const form = pocketForm(joint);
  const [bottom, top] = [form.lower.at(0), form.upper.at(0)];
  const height = top - bottom;
  if (!(wall > 0 && edgeRadius >= 0 && wall + edgeRadius < 0.48 * height))
    throw new InputError({
      path: edgeRadius > wall || !(edgeRadius >= 0) ? 'channel.edgeRadius' : 'channel.wall',
      expected: `wall > 0, edgeRadius >= 0 and wall + edgeRadius below ${format(0.48 * height)} mm`,
      received: `wall ${wall}, edgeRadius ${edgeRadius}`,
      remedy: `the pocket is ${format(height)} mm high: reduce wall or edgeRadius, or make it higher`,
    });
  const inset = Math.min(insetOfWall * wall, 0.65 * (wall + edgeRadius));
  const half = halfRoom(form, wish);
  // Centres of the edge's curvature lie no further out than this.
  const reach = Math.max(0.25 * height, half - edgeRadius);
  const path =
    joint.pocket.made === 'cut'
      ? slotPath(form.halfWidth - inset, bottom + inset, top - inset, reach, wall + edgeRadius - inset)
      : lensPath(form, joint.pocket.flat, inset, Math.min(reach, innermost(form, wall + edgeRadius).x));
  const aspect = path.end / (height / 2 - inset);
  if (aspect > mostAspect)
    throw new InputError({
      path: 'channel.largest.width',
      expected: `at most ${format(mostAspect * height)} mm, ${mostAspect} times the height of the pocket`,
      received: `${format(2 * half)} mm`,
      remedy: 'ask for narrower channels',
    });
  const length = path.lower.length + path.tip.length + path.upper.length;
  const step = Math.min(stepOfInset * inset, length / (2.1 * degreeFor(aspect))) / refinement;
  const shortest = Math.min(step, (0.4 * path.tipRadius) / refinement);
  if (!(length / shortest <= mostEdges))
    throw new InputError({
      path: 'channel.wall',
      expected: `walls and edge radii that take at most ${mostEdges} edges round the pocket`,
      received: `wall ${wall}, edgeRadius ${edgeRadius}`,
      remedy: 'ask for more of both: the model is as fine as they are',
    });
  const along = (piece: Piece, first: number, last: number) =>
    withMiddles(graded(piece.length, growing(piece.length, first, last, 0.2, step), 4)).map((s) => piece.at(s));
  const lower = along(path.lower, step, shortest);
  const upper = along(path.upper, shortest, step);
  const tip = withMiddles(graded(path.tip.length, () => shortest, 4)).map((s) => path.tip.at(s));
  const points = [...lower, ...tip.slice(1), ...upper.slice(1)];
  const x = Float64Array.from(points, (point) => point[0]);
  x[0] = 0;
  x[x.length - 1] = 0;
  return {
    x,
    y: Float64Array.from(points, (point) => point[1]),
    lowerEnd: (lower.length - 1) / 2,
    upperStart: (lower.length + tip.length - 2) / 2,
    end: path.end,
    roundFrom: path.end - path.tipRadius,
    inset,
    aspect,
    step,
    data: path.data,
    distance: contourBorder(path.data).distance,
  };
}

/** The contour `factor` times as large, about (0, level). */
export function scaledContour(contour: ControlContour, factor: number, level: number): ControlContour {
  const lengthOf = (value: number) => factor * value;
  const up = (value: number) => level + factor * (value - level);
  const { up: above, down, halfLength, inset, end, feet } = contour.data as unknown as LensContour;
  const data: ContourData = {
    up: lengthOf(above),
    down: lengthOf(down),
    level,
    halfLength: lengthOf(halfLength),
    inset: lengthOf(inset),
    end: [lengthOf(end[0]), up(end[1]), lengthOf(end[2])],
    feet: feet.map(lengthOf),
  };
  return {
    ...contour,
    x: contour.x.map(lengthOf),
    y: contour.y.map(up),
    end: lengthOf(contour.end),
    roundFrom: lengthOf(contour.roundFrom),
    inset: lengthOf(contour.inset),
    step: lengthOf(contour.step),
    data,
    distance: contourBorder(data).distance,
  };
}

type Point = readonly [x: number, y: number];

interface Piece {
  readonly length: number;
  /** Point at a length from its start. */
  at(s: number): Point;
}

interface Path {
  readonly lower: Piece;
  readonly tip: Piece;
  readonly upper: Piece;
  readonly end: number;
  readonly tipRadius: number;
  readonly data: ContourData;
}

/** A curve by pieces, each over a parameter from 0 to 1. */
function piece(...parts: readonly ((t: number) => Point)[]): Piece {
  const samples = 400;
  const steps: {
    readonly from: number;
    readonly to: number;
    readonly part: (t: number) => Point;
    readonly t: number;
  }[] = [];
  let length = 0;
  for (const part of parts)
    for (let k = 0; k < samples; k++) {
      const [a, b] = [part(k / samples), part((k + 1) / samples)];
      const from = length;
      length += Math.hypot(b[0] - a[0], b[1] - a[1]);
      if (length > from) steps.push({ from, to: length, part, t: k / samples });
    }
  return {
    length,
    at(s) {
      let [low, high] = [0, steps.length - 1];
      while (low < high) {
        const middle = (low + high + 1) >> 1;
        if (steps[middle]!.from <= s) low = middle;
        else high = middle - 1;
      }
      const { from, to, part, t } = steps[low]!;
      return part(t + Math.min(1, (s - from) / (to - from)) / samples);
    },
  };
}

const line =
  (a: Point, b: Point) =>
  (t: number): Point => [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
const arc =
  (x: number, y: number, radius: number, from: number, to: number) =>
  (t: number): Point => {
    const angle = from + t * (to - from);
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
  };

/** Where the corners of the end lie: half way round. */
const corner = Math.PI / 4;

/** Within half a width `most` and two heights; round about centres at `reach`, or in the slot's own corners with `tipRadius`. */
function slotPath(most: number, bottom: number, top: number, reach: number, tipRadius: number): Path {
  const high = (top - bottom) / 2;
  const end = Math.min(most, reach + high);
  const radius = Math.min(high, Math.max(end - reach, tipRadius));
  const x = end - radius;
  const [low, up] = [bottom + radius, top - radius];
  return {
    lower: piece(line([0, bottom], [x, bottom]), arc(x, low, radius, -Math.PI / 2, -corner)),
    tip: piece(arc(x, low, radius, -corner, 0), line([end, low], [end, up]), arc(x, up, radius, 0, corner)),
    upper: piece(arc(x, up, radius, corner, Math.PI / 2), line([x, top], [0, top])),
    end,
    tipRadius: radius,
    data: { halfWidth: end, bottom, top, radius },
  };
}

/** The curves moved inwards, ended by the circle about the middle at `reach` that touches them. */
function lensPath(form: PocketForm, flat: number | undefined, inset: number, reach: number): Path {
  const [x, y] = [reach, middleAt(form, reach)];
  const { lower, upper } = form;
  const [footBelow, footAbove] = [lower.nearest(x, y), upper.nearest(x, y)];
  const radius = form.distance(x, y) - inset;
  const moved = (of: Side, at: number, sign: 1 | -1): Point => {
    const slope = of.slope(at);
    const size = (sign * inset) / Math.hypot(1, slope);
    return [at - size * slope, of.at(at) + size];
  };
  const direction = (of: Side, foot: number) => Math.atan2(of.at(foot) - y, foot - x);
  const level = lower.at(form.halfWidth);
  return {
    lower: piece((t) => moved(lower, t * footBelow, 1), arc(x, y, radius, direction(lower, footBelow), -corner)),
    tip: piece(arc(x, y, radius, -corner, corner)),
    upper: piece(arc(x, y, radius, corner, direction(upper, footAbove)), (t) => moved(upper, (1 - t) * footAbove, -1)),
    end: x + radius,
    tipRadius: radius,
    data: {
      up: upper.at(0) - level,
      down: level - lower.at(0),
      level,
      halfLength: form.halfWidth,
      ...(flat === undefined ? {} : { flat }),
      inset,
      end: [x, y, radius],
      feet: [footBelow, footAbove],
    },
  };
}

/** Data of a lens: its curves, by how much the contour lies within them, the circle that ends it and where that touches them. */
interface LensContour extends LensSize {
  readonly inset: number;
  readonly end: readonly [x: number, y: number, radius: number];
  readonly feet: readonly [below: number, above: number];
}

/** The border of a control contour by its data, which it reads anew whenever it is asked. */
export function contourBorder(data: ContourData): Border {
  if (data.end === undefined) return roundedRectangle(data as Readonly<Record<string, number>>);
  const lens = data as unknown as LensContour;
  const form = lensForm(lens, Number.POSITIVE_INFINITY, 'bottom-flat');
  return {
    distance(x, y) {
      const { end, feet, inset } = lens;
      const dx = Math.abs(x) - end[0];
      const dy = y - end[1];
      // From the end's centre to where its circle touches the curves.
      const atEnd =
        (feet[0] - end[0]) * dy - (form.lower.at(feet[0]) - end[1]) * dx > 0 &&
        dx * (form.upper.at(feet[1]) - end[1]) - dy * (feet[1] - end[0]) > 0;
      return atEnd ? end[2] - Math.hypot(dx, dy) : form.distance(x, y) - inset;
    },
  };
}

function roundedRectangle({ halfWidth, bottom, top, radius }: Readonly<Record<string, number>>): Border {
  const [middle, high] = [(top! + bottom!) / 2, (top! - bottom!) / 2 - radius!];
  return {
    distance(x, y) {
      const dx = Math.abs(x) - halfWidth! + radius!;
      const dy = Math.abs(y - middle) - high;
      return radius! - Math.hypot(Math.max(dx, 0), Math.max(dy, 0)) - Math.min(0, Math.max(dx, dy));
    },
  };
}

const format = (value: number) => String(Number(value.toPrecision(3)));
