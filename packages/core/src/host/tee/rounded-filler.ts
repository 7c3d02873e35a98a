import { InputError } from '../../errors.js';

/**
 * The filler of a tee (between `y = 0` and two arcs of the bend radius centred at `(±bendRadius, bendRadius)`), moved
 * inwards and with its three tips rounded: where the tips' circles lie. Lengths in mm.
 */
export interface RoundedFiller {
  /** Centre of the right side tip's circle: `(sideX, baseWall + sideRadius)`. */
  readonly sideX: number;
  readonly sideY: number;
  /** Centre of the top tip's circle: `(0, topY)`. */
  readonly topY: number;
}

/**
 * Tips of the filler moved inwards by `sideWall` from the arcs and `baseWall` from the base, rounded with `sideRadius`
 * and `topRadius`: each circle touches its two borders from inside. Radii must stay below `inscribedRadius`.
 */
export function roundedFiller(
  bendRadius: number,
  sideWall: number,
  baseWall: number,
  sideRadius: number,
  topRadius: number,
): RoundedFiller {
  const arc = bendRadius + sideWall;
  const sideY = baseWall + sideRadius;
  const sideReach = Math.sqrt((arc + sideRadius) ** 2 - (bendRadius - sideY) ** 2);
  const topReach = Math.sqrt((arc + topRadius) ** 2 - bendRadius ** 2);
  return { sideX: bendRadius - sideReach, sideY, topY: bendRadius - topReach };
}

/**
 * Radius of the largest circle inside the filler moved inwards by `sideWall` and `baseWall`; negative when nothing is
 * left. Its centre `(0, baseWall + r)` is `bendRadius + sideWall + r` from the arcs' centres.
 */
export function inscribedRadius(bendRadius: number, sideWall: number, baseWall: number): number {
  const arc = bendRadius + sideWall;
  const depth = bendRadius - baseWall;
  return (bendRadius ** 2 + depth ** 2 - arc ** 2) / (2 * (depth + arc));
}

/** Radius of the largest circle in the whole filler, and the height of its middle: `inscribedRadius` without walls. */
export const fillerRadius = (bendRadius: number): number => bendRadius / 4;

/** Refuses walls and tip radii that leave no filler inside them. */
export function checkRoundedFiller(bendRadius: number, wall: number, tipRadius: number): void {
  const depth = inscribedRadius(bendRadius, wall, wall);
  if (!(bendRadius > 0 && wall >= 0 && tipRadius >= 0 && tipRadius < depth))
    throw new InputError({
      path: 'channel.wall',
      expected: `walls and tip radii that together stay below ${fillerRadius(bendRadius)} mm, the largest circle in the filler`,
      received: `wall ${wall}, tip radius ${tipRadius}, bend radius ${bendRadius}`,
      remedy: 'ask for a thinner wall or a smaller edge radius, or use a larger bend radius',
    });
}
