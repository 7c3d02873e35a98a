import { kinkStrength } from '../../laminate/index.js';
import type { PlaceDefinition, PointStrength, SectionPoint } from '../../place.js';
import { bonded, delaminating, splitting } from '../../point-strength.js';
import type { PocketSite, PocketTee } from './site.js';

/** Places of a tee with a pocket beside those of the laminates: `filler` is the resin in the pocket, the joint's own has names of its own. */
export type PocketPlace =
  | 'pocket-interface'
  | 'next-ply'
  | 'pocket-plies'
  | 'joint-filler'
  | 'joint-arc'
  | 'joint-pocket'
  | 'joint-base';

const jointFiller = { place: 'joint-filler', layer: -1 };

export const pocketPlaces: Readonly<Record<PocketPlace, PlaceDefinition>> = {
  'pocket-interface': {
    label: 'pocket/ply',
    stride: 4,
    between: [{ place: 'filler', layer: -1 }, { place: 'pocket-plies' }],
  },
  'next-ply': { label: 'ply at the pocket', stride: 4, zone: 'pocket-plies' },
  'pocket-plies': { label: 'plies around the pocket', stride: 6 },
  'joint-filler': { label: 'filler of the joint', stride: 1 },
  'joint-arc': { label: 'filler/overlaminate', stride: 4, between: [jointFiller, { place: 'bend', layer: 0 }] },
  'joint-pocket': {
    label: 'filler/plies around the pocket',
    stride: 4,
    between: [jointFiller, { place: 'pocket-plies', layer: 0 }],
  },
  'joint-base': { label: 'filler/skin', stride: 4, between: [jointFiller, { place: 'skin', layer: 0 }] },
};

/** As of a laminate with a pocket and of a tee without. */
export function pocketStrengthAt(joint: PocketTee, site: PocketSite): (point: SectionPoint) => PointStrength {
  const { overlaminate, skin, filler, pocket } = joint;
  const layers = pocket.in === 'skin' ? skin : overlaminate;
  return ({ place, layer, x, y }) => {
    switch (place) {
      case 'filler':
      case 'pocket-channel':
        return splitting(pocket.resin);
      case 'pocket-interface':
        return bonded(pocket.resin, layers[layer]!.ply);
      case 'next-ply': {
        const { ply, angle } = layers[layer]!;
        if (angle === 90) return splitting(ply);
        if (angle !== 0) return delaminating(ply);
        return { ...delaminating(ply), kinking: kinkStrength(ply, site.form.angle(...site.unfold(x, y))) };
      }
      case 'pocket-plies':
        return delaminating(layers[layer]!.ply);
      case 'joint-filler':
      case 'joint-channel':
        return splitting(filler);
      case 'joint-arc':
        return bonded(filler, overlaminate[0]!.ply);
      case 'joint-pocket':
        return bonded(filler, layers[0]!.ply);
      case 'joint-base':
        return bonded(filler, skin[0]!.ply);
      case 'skin':
        return delaminating(skin[layer]!.ply);
      default:
        return delaminating(overlaminate[layer]!.ply);
    }
  };
}
