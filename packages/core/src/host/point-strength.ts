import type { Ply } from '../material/index.js';
import type { PointStrength } from './place.js';

const none = Number.POSITIVE_INFINITY;

/** A ply that delaminates. */
export function delaminating(ply: Ply): PointStrength {
  return { ...soundStrengths(ply), principal: none, sound: soundStrengths(ply) };
}

/** A material that splits under its largest principal stress. */
export function splitting(ply: Ply): PointStrength {
  return { tension: none, shear: none, principal: ply.transverseTension, sound: soundStrengths(ply) };
}

/** An interface: the weaker of both sides delaminates, and what lies inside splits. */
export function bonded(inner: Ply, outer: Ply): PointStrength {
  const [a, b] = [soundStrengths(inner), soundStrengths(outer)];
  const sound = { tension: Math.min(a.tension, b.tension), shear: Math.min(a.shear, b.shear) };
  return { ...sound, principal: inner.transverseTension, sound };
}

const soundStrengths = (ply: Ply) => ({ tension: ply.transverseTension, shear: ply.interlaminarShear });
