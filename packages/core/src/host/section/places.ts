import type { PlaceDefinition, PointStrength, SectionPoint } from '../place.js';
import { bonded, delaminating, splitting } from '../point-strength.js';
import type { SectionJoint } from './joint.js';

/** Of a section that is meshed elsewhere, points in the middles of elements and of the filler's sides. */
export const sectionPlaces: Readonly<Record<'filler' | 'filler-interface' | 'surface', PlaceDefinition>> = {
  filler: { label: 'filler', stride: 1, scattered: true },
  'filler-interface': {
    label: 'interface of the filler',
    stride: 1,
    scattered: true,
    between: [{ place: 'filler', layer: -1 }, { place: 'surface' }],
  },
  surface: { label: 'around the filler', stride: 1, scattered: true },
};

/**
 * The filler, and a surface whose fibres run along the channel, split under their largest principal stress; any other surface delaminates. Where
 * the filler meets another surface the weaker of both delaminates. Not judged: fibres, plies in their plane, and borders of other surfaces.
 */
export function sectionStrengthAt(
  joint: SectionJoint,
  surfaces: readonly string[],
): (point: SectionPoint) => PointStrength {
  return ({ place, layer }) => {
    const filler = joint.surfaces[joint.filler]!.ply;
    const { ply, angle } = joint.surfaces[place === 'filler' ? joint.filler : surfaces[layer]!]!;
    if (place === 'filler-interface') return bonded(filler, ply);
    return place === 'filler' || angle === 90 || ply.E1 === ply.E2 ? splitting(ply) : delaminating(ply);
  };
}
