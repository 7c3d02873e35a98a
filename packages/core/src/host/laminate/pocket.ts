import type { Layup } from '../../material/index.js';
import type { Border } from '../../outline/index.js';
import { type LaminateJoint, type Lens, plyBorders } from './laminate.js';

/**
 * The pocket as two curves over x, and where plies run beside it. All even in x. Lengths in mm, angles in radians.
 */
export interface PocketForm extends Border {
  /** Where the curves meet, or the side of a slot. */
  readonly halfWidth: number;
  readonly lower: Side;
  readonly upper: Side;
  /** Height at `x` of what lies at height `level` in the flat laminate, below or above the pocket. */
  place(x: number, level: number, above: boolean): number;
  /** Direction of the plies at a point outside the pocket. */
  angle(x: number, y: number): number;
}

/** Border of the pocket to one side. */
export interface Side {
  at(x: number): number;
  slope(x: number): number;
  /** Point of the border that is nearest to a point of the pocket: its x. */
  nearest(x: number, y: number): number;
}

export function pocketForm({ layup, pocket }: Pick<LaminateJoint, 'layup' | 'pocket'>): PocketForm {
  const borders = plyBorders(layup);
  if (pocket.made === 'cut') {
    const { first, count, halfWidth } = pocket;
    return slotForm(halfWidth, borders[first]!, borders[first + count]!);
  }
  return lensForm(lensSize(layup, pocket), borders.at(-1)!, pocket.faces);
}

/** How far a lens reaches in its laminate. */
export function lensSize(layup: Layup, { height, halfLength, flat, faces, below }: Lens): LensSize {
  const up = upwards(faces, height);
  const size = { up, down: height - up, level: plyBorders(layup)[below]!, halfLength };
  return flat === undefined ? size : { ...size, flat };
}

/** How far a lens reaches above the level that it lies at. */
export const upwards = (faces: Lens['faces'], height: number): number => (faces === 'both-flat' ? height / 2 : height);

function slotForm(halfWidth: number, bottom: number, top: number): PocketForm {
  const level = (height: number): Side => ({ at: () => height, slope: () => 0, nearest: (x) => x });
  return {
    halfWidth,
    lower: level(bottom),
    upper: level(top),
    place: (_x, height) => height,
    angle: () => 0,
    distance: (x, y) => Math.min(halfWidth - Math.abs(x), y - bottom, top - y),
  };
}

/**
 * Plies as a beam that a preform lifts by `delta` and a pressure holds down touch down at `x = L` with no moment:
 * `delta (4 e^3 - 3 e^4)`, `e = 1 - |x| / L` (Bernoulli's beam under uniform load; derived here). Slope at most `16/9 delta / L`. Over several preforms, or a flat one, they
 * run level in between, and that is how they come down beyond the outermost.
 */
const lift = (e: number): number => e * e * e * (4 - 3 * e);

/** How far a lens reaches above and below the level that it lies at, and to its sides. */
export interface LensSize {
  readonly up: number;
  readonly down: number;
  readonly level: number;
  readonly halfLength: number;
  /** Of `halfLength`, where both sides are level. */
  readonly flat?: number;
}

/** Reads the size anew whenever it is asked. `thickness` of the laminate; Infinity serves who asks for the pocket alone. */
export function lensForm(size: LensSize, thickness: number, faces: Lens['faces']): PocketForm {
  const tip = () => size.halfLength - (size.flat ?? 0);
  /** 1 on the level, 0 where plies touch down. */
  const reach = (x: number) => {
    const { flat = 0 } = size;
    return Math.max(0, 1 - Math.max(0, Math.abs(x) - flat) / (size.halfLength - flat));
  };
  const slope = (x: number) => {
    const e = reach(x);
    return (-Math.sign(x) * 12 * e * e * (1 - e)) / tip();
  };
  const bend = (x: number) => {
    const { flat = 0 } = size;
    if (Math.abs(x) < flat) return 0;
    const e = reach(x);
    return (12 * e * (2 - 3 * e)) / (tip() * tip());
  };
  const side = (riseOf: () => number): Side => ({
    at: (x) => size.level + riseOf() * lift(reach(x)),
    slope: (x) => riseOf() * slope(x),
    nearest(x, y) {
      // Newton on the foot's condition; the border is flat against the pocket's height, so that it starts close.
      const rise = riseOf();
      const { level, halfLength: L } = size;
      let foot = x;
      for (let pass = 0; rise !== 0 && pass < 20; pass++) {
        const over = level + rise * lift(reach(foot)) - y;
        const tilt = rise * slope(foot);
        const step = (foot - x + over * tilt) / Math.max(0.25, 1 + tilt * tilt + over * rise * bend(foot));
        foot -= step;
        if (Math.abs(step) < 1e-13 * L) break;
      }
      return foot;
    },
  });
  const [lower, upper] = [side(() => -size.down), side(() => size.up)];
  const gap = (of: Side, x: number, y: number) => {
    const foot = of.nearest(x, y);
    return Math.hypot(foot - x, of.at(foot) - y);
  };
  return {
    get halfWidth() {
      return size.halfLength;
    },
    lower,
    upper,
    place(x, at, above) {
      const { up, down, level } = size;
      const room = thickness - level;
      const rise = lift(reach(x));
      if (faces === 'bottom-flat') return above ? at + up * rise : at;
      return above ? at + up * rise * (1 - (at - level) / room) : at - down * rise * (1 - (level - at) / level);
    },
    angle(x, y) {
      if (reach(x) === 0) return 0;
      const { up, down, level } = size;
      const room = thickness - level;
      const rise = lift(reach(x));
      const above = y > level;
      if (faces === 'bottom-flat') return above ? Math.atan(up * slope(x)) : 0;
      const share = above ? (thickness - y) / (room - up * rise) : y / (level - down * rise);
      return Math.atan((above ? up : -down) * slope(x) * share);
    },
    distance(x, y) {
      const { level, halfLength: L } = size;
      if (!(Math.abs(x) < L)) return L - Math.abs(x) - Math.abs(y - level);
      const toLower = y - lower.at(x);
      const toUpper = upper.at(x) - y;
      // Outside, the vertical distance is not less than the way.
      return toLower > 0 && toUpper > 0 ? Math.min(gap(lower, x, y), gap(upper, x, y)) : Math.min(toLower, toUpper);
    },
  };
}
