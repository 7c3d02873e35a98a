import type { PlaceDefinition, PointStrength, SectionPoint } from '../place.js';
import { delaminating, splitting } from '../point-strength.js';
import type { SectionJoint } from './joint.js';

/** Of a section that is meshed elsewhere, points in the middles of elements. */
export const sectionPlaces: Readonly<Record<'filler' | 'surface', PlaceDefinition>> = {
  filler: { label: 'filler', stride: 1 },
  surface: { label: 'around the filler', stride: 1 },
};

/**
 * The filler, and a surface whose fibres run along the channel, split under their largest principal stress; any other surface delaminates. Not
 * judged: fibres, plies in their plane, and what an adhesive between two surfaces bears.
 */
export function sectionStrengthAt(
  joint: SectionJoint,
  surfaces: readonly string[],
): (point: SectionPoint) => PointStrength {
  return ({ place, layer }) => {
    const { ply, angle } = joint.surfaces[place === 'filler' ? joint.filler : surfaces[layer]!]!;
    return place === 'filler' || angle === 90 || ply.E1 === ply.E2 ? splitting(ply) : delaminating(ply);
  };
}
