import { layupThickness } from '../../material/index.js';
import type { TeeJoint } from './tee.js';

/** Places nearer to a tip than this share of the bend radius are not judged, unless a brief says otherwise. */
export const usualTipDistance = 0.1;

/**
 * How far the laminates are judged, mm. Within about a thickness of where a load comes in, a support holds or a laminate ends, stresses are those of how that is done
 * (Saint-Venant), which no brief tells: the web is judged up to a thickness below its top and two above the bend, the foot up to a thickness before its
 * end, the skin as far as the foot and up to a thickness of its own before its support. What is left may be nothing.
 */
export interface JudgedExtent {
  /** Largest y. */
  readonly web: number;
  /** Largest x, of the right half. */
  readonly foot: number;
  readonly skin: number;
}

export function judgedExtent(joint: TeeJoint): JudgedExtent {
  const { bendRadius: R, webHeight, footLength, skinHalfSpan } = joint;
  const t = layupThickness(joint.overlaminate);
  const foot = R + footLength - t;
  return {
    web: R + Math.min(2 * t, webHeight - t),
    foot,
    skin: Math.min(foot, skinHalfSpan - layupThickness(joint.skin)),
  };
}

/**
 * The thickness by which rows through the overlaminate stand, mm: half of its own where web or foot are shorter than that, so that the stress at their ends
 * reaches into the bend.
 */
export function thicknessOfRows(joint: TeeJoint): number {
  const t = layupThickness(joint.overlaminate);
  return Math.min(joint.webHeight, joint.footLength) < t ? t / 2 : t;
}
