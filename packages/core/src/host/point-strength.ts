import type { Ply } from '../material/index.js';
import type { PointStrength } from './place.js';

const none = Number.POSITIVE_INFINITY;

/** A ply that delaminates. */
export function delaminating(ply: Ply): PointStrength {
  return { tension: ply.transverseTension, shear: ply.interlaminarShear, principal: none };
}

/** A material that splits under its largest principal stress. */
export function splitting(ply: Ply): PointStrength {
  return { tension: none, shear: none, principal: ply.transverseTension };
}
