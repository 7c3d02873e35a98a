import { type Layup, layupThickness } from '../../../material/index.js';
import type { Border } from '../../../outline/index.js';
import { type LaminateJoint, type PocketForm, pocketForm, type Side } from '../../laminate/index.js';
import type { TeeJoint, TeePocket } from '../tee.js';

export type Point = readonly [x: number, y: number];

/** A tee that has one. */
export type PocketTee = TeeJoint & { readonly pocket: TeePocket };

/**
 * Where the pocket of a tee lies. Three coordinates: of the joint; of the *laminate* that holds it as if it lay flat (along from the pocket's
 * middle, up from its bottom face); and of the *frame* in which all of the host is told, which touches that face at the pocket's middle: x along
 * the plies, y through them. In foot and skin the last two are one; a bend rolls the laminate up about (0, bendRadius) of its frame, true
 * to length on the level of the pocket.
 */
export interface PocketSite {
  /** The laminate: from its bottom face up. */
  readonly laminate: Pick<LaminateJoint, 'layup' | 'pocket'>;
  readonly thickness: number;
  /** The pocket, flat. */
  readonly form: PocketForm;
  readonly roll: Roll | undefined;
  /** Of the pocket in its frame; distances are true inside. */
  readonly border: Border;
  /** The laminate is meshed as one that has a pocket up to here on both sides of it, mm along. */
  readonly reach: number;
  /** Number of a ply as the joint counts: from the filler. */
  layerOf(ply: number): number;
  /** Laminate to frame and back, frame to joint and back. */
  fold(s: number, y: number): Point;
  unfold(x: number, y: number): Point;
  toJoint(x: number, y: number): Point;
  toFrame(x: number, y: number): Point;
  /** Angle by which the frame's x axis is turned in the joint, radians. */
  readonly turn: number;
  /** Direction of the plies in the frame, at a place of the laminate. */
  lean(s: number, y: number): number;
}

/** A laminate rolled up: radius of its bottom face, and height of the level on which lengths stay. */
export interface Roll {
  readonly radius: number;
  readonly level: number;
}

const flat = (s: number, y: number): Point => [s, y];

function foldOn(roll: Roll | undefined): (s: number, y: number) => Point {
  if (roll === undefined) return flat;
  const { radius, level } = roll;
  return (s, y) => {
    const angle = s / (radius - level);
    return [(radius - y) * Math.sin(angle), radius - (radius - y) * Math.cos(angle)];
  };
}

export function unfoldFrom(roll: Roll | undefined): (x: number, y: number) => Point {
  if (roll === undefined) return flat;
  const { radius, level } = roll;
  return (x, y) => [(radius - level) * Math.atan2(x, radius - y), radius - Math.hypot(x, radius - y)];
}

/** The laminate that holds the pocket, bottom up. */
export function pocketedLayup(
  { skin, overlaminate }: Pick<TeeJoint, 'skin' | 'overlaminate'>,
  where: TeePocket['in'],
): Layup {
  return where === 'skin' ? skin.toReversed() : overlaminate;
}

/** How far the laminate goes on beyond the middle of the pocket before something else begins, towards the web and away from it; mm at its level. */
export function roomAround(
  { bendRadius: R, footLength, skinHalfSpan }: TeeJoint,
  where: TeePocket['in'],
  at: number,
  level: number,
): readonly [before: number, after: number] {
  if (where === 'bend') return [(Math.PI / 2 - at) * (R - level), at * (R - level)];
  if (where === 'foot') return [at - R, R + footLength - at];
  const breaks = [-skinHalfSpan, -R - footLength, -R, R, R + footLength, skinHalfSpan];
  const next = breaks.findIndex((x) => x > at);
  return next < 1 ? [0, 0] : [at - breaks[next - 1]!, breaks[next]! - at];
}

export function pocketSite(joint: PocketTee): PocketSite {
  const { bendRadius: R, pocket } = joint;
  const layup = pocketedLayup(joint, pocket.in);
  const laminate = { layup, pocket: pocket.form };
  const thickness = layupThickness(layup);
  const form = pocketForm(laminate);
  const level = levelOf(laminate);
  const roll = pocket.in === 'bend' ? { radius: R, level } : undefined;
  const turn = roll === undefined ? 0 : -pocket.at;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const origin: Point =
    roll === undefined
      ? [pocket.at, pocket.in === 'skin' ? -thickness : 0]
      : [R - R * Math.sin(pocket.at), R - R * Math.cos(pocket.at)];
  const room = Math.min(...roomAround(joint, pocket.in, pocket.at, level)) - form.halfWidth;
  const [fold, unfold] = [foldOn(roll), unfoldFrom(roll)];
  return {
    laminate,
    thickness,
    form,
    roll,
    border: borderOf({ form, roll, fold, unfold }),
    reach: form.halfWidth + Math.min(thickness / 2, room / 2),
    layerOf: (ply) => (pocket.in === 'skin' ? layup.length - 1 - ply : ply),
    fold,
    unfold,
    toJoint: (x, y) => [origin[0] + cos * x - sin * y, origin[1] + sin * x + cos * y],
    toFrame(x, y) {
      const [dx, dy] = [x - origin[0], y - origin[1]];
      return [cos * dx + sin * dy, cos * dy - sin * dx];
    },
    turn,
    lean(s, y) {
      const angle = form.angle(s, y);
      if (roll === undefined) return angle;
      const stretch = (roll.radius - y) / (roll.radius - level);
      return s / (roll.radius - level) + Math.atan(Math.tan(angle) / stretch);
    },
  };
}

/** Height of the middle of a pocket at its ends. */
export function levelOf(laminate: Pick<LaminateJoint, 'layup' | 'pocket'>): number {
  const { halfWidth, lower, upper } = pocketForm(laminate);
  return (lower.at(halfWidth) + upper.at(halfWidth)) / 2;
}

function borderOf({ form, roll, fold, unfold }: Pick<PocketSite, 'form' | 'roll' | 'fold' | 'unfold'>): Border {
  if (roll === undefined) return form;
  const { lower, upper, halfWidth } = form;
  const isSlot = lower.at(halfWidth) < upper.at(halfWidth);
  const { radius, level } = roll;
  const gap = (side: Side, s: number, y: number, x: number, Y: number) => {
    // Newton on the foot's condition; borders are flat against the pocket's height, so that it starts close.
    let foot = side.nearest(s, y);
    let from = fold(foot, side.at(foot));
    for (let pass = 0; pass < 40; pass++) {
      const share = (radius - side.at(foot)) / (radius - level);
      const angle = foot / (radius - level);
      const [c, d] = [Math.cos(angle), Math.sin(angle)];
      const slope = side.slope(foot);
      const [tx, ty] = [share * c - slope * d, share * d + slope * c];
      const step = ((from[0] - x) * tx + (from[1] - Y) * ty) / (tx * tx + ty * ty);
      foot -= step;
      from = fold(foot, side.at(foot));
      if (Math.abs(step) < 1e-13 * halfWidth) break;
    }
    return Math.hypot(from[0] - x, from[1] - Y);
  };
  return {
    distance(x, y) {
      const [s, level_] = unfold(x, y);
      const around = form.distance(s, level_);
      if (!(around > 0)) return around;
      if (isSlot) {
        const side = (radius - level_) * Math.sin((halfWidth - Math.abs(s)) / (radius - level));
        return Math.min(level_ - lower.at(0), upper.at(0) - level_, side);
      }
      return Math.min(gap(lower, s, level_, x, y), gap(upper, s, level_, x, y));
    },
  };
}
