import type { Joint, SectionPoint, TeeJoint } from '../host/index.js';
import type { Ply } from '../material/index.js';

/** Where a joint can fail first. */
export type FailurePlace = 'edge' | SectionPoint['place'];

/** What a point of the section can bear, MPa. A criterion that does not apply there has strength Infinity. */
export interface PointStrength {
  readonly tension: number;
  readonly shear: number;
  /** Largest principal stress of the filler. */
  readonly principal: number;
}

/**
 * Strengths at a section point. Laminates delaminate: through-thickness tension against the ply's transverse strength, shear against its
 * interlaminar strength. At the filler's interfaces the weaker of both sides delaminates, and the filler itself splits under its largest
 * principal stress. In-plane failure of plies (along or across fibres in web, foot and skin) and of the filler along its fibres is not judged:
 * materials carry no such strengths.
 */
export function pointStrength({ place, layer }: SectionPoint, joint: Joint): PointStrength {
  if (joint.kind === 'plate') return splitting(joint.material);
  switch (place) {
    case 'filler':
      return splitting(joint.filler);
    case 'arc-interface':
      return interfaceOf(joint, joint.overlaminate[0]!.ply);
    case 'base-interface':
      return interfaceOf(joint, joint.skin[0]!.ply);
    case 'skin':
      return delaminating(joint.skin[layer]!.ply);
    default:
      return delaminating(joint.overlaminate[layer]!.ply);
  }
}

/** Strength of the material around the channel against hoop tension at its edge, MPa. */
export function edgeStrength(joint: Joint): number {
  return (joint.kind === 'plate' ? joint.material : joint.filler).transverseTension;
}

const none = Number.POSITIVE_INFINITY;

function delaminating(ply: Ply): PointStrength {
  return { tension: ply.transverseTension, shear: ply.interlaminarShear, principal: none };
}

function splitting(ply: Ply): PointStrength {
  return { tension: none, shear: none, principal: ply.transverseTension };
}

function interfaceOf({ filler }: TeeJoint, ply: Ply): PointStrength {
  return {
    tension: Math.min(filler.transverseTension, ply.transverseTension),
    shear: Math.min(filler.interlaminarShear, ply.interlaminarShear),
    principal: filler.transverseTension,
  };
}
