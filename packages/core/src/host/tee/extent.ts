import { layupThickness } from '../../material/index.js';
import type { TeeJoint } from './tee.js';

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
