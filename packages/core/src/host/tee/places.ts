import type { PlaceDefinition, PointStrength, SectionPoint } from '../place.js';
import { bonded, delaminating, splitting } from '../point-strength.js';
import type { TeeJoint } from './tee.js';

/** A place of a tee. */
export type TeePlace = 'bend' | 'foot' | 'web' | 'skin' | 'filler' | 'arc-interface' | 'base-interface';

const filler = { place: 'filler', layer: -1 };

/** Strides: 0.4 mm on interfaces close to the channel, 1 mm and more where its field is smooth (bend radius 5 mm). */
export const teePlaces: Readonly<Record<TeePlace, PlaceDefinition>> = {
  filler: { label: 'filler', stride: 1 },
  'arc-interface': { label: 'filler/overlaminate', stride: 4, between: [filler, { place: 'bend', layer: 0 }] },
  'base-interface': { label: 'filler/skin', stride: 4, between: [filler, { place: 'skin', layer: 0 }] },
  bend: { label: 'bend', stride: 5 },
  foot: { label: 'foot', stride: 8 },
  web: { label: 'web', stride: 8 },
  skin: { label: 'skin', stride: 6 },
};

/**
 * Laminates delaminate: through-thickness tension against the ply's transverse strength, shear against its interlaminar strength. At
 * the filler's interfaces the weaker of both sides delaminates, and the filler itself splits under its largest principal stress.
 * In-plane failure of plies (along or across fibres in web, foot and skin) and of the filler along its fibres is not judged: materials
 * carry no such strengths.
 */
export function teeStrengthAt(joint: TeeJoint, { place, layer }: SectionPoint): PointStrength {
  switch (place) {
    case 'filler':
      return splitting(joint.filler);
    case 'arc-interface':
      return bonded(joint.filler, joint.overlaminate[0]!.ply);
    case 'base-interface':
      return bonded(joint.filler, joint.skin[0]!.ply);
    case 'skin':
      return delaminating(joint.skin[layer]!.ply);
    default:
      return delaminating(joint.overlaminate[layer]!.ply);
  }
}
