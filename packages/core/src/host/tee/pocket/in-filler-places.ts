import type { PlaceDefinition, PointStrength, SectionPoint } from '../../place.js';
import { pocketStrengthAt } from './places.js';
import type { PocketSite, PocketTee } from './site.js';

/** What places and zones of a tee with a pocket are called where the channel is looked for in the filler, as the joint's own are in a tee without. */
const names = {
  'joint-filler': 'filler',
  'joint-arc': 'arc-interface',
  'joint-base': 'base-interface',
  'joint-pocket': 'filler-pocket',
  filler: 'pocket-resin',
  'pocket-interface': 'pocket-bond',
} as const;

const back = new Map<string, string>(Object.entries(names).map(([name, here]) => [here, name]));

export const nameInFiller = (place: string): string => (names as Readonly<Record<string, string>>)[place] ?? place;

type PlaceInFiller = 'filler-pocket' | 'pocket-resin' | 'pocket-bond' | 'pocket-channel';

const pocketResin = { place: 'pocket-resin', layer: -1 };

/** With a channel of known outline in the pocket, beside the places of the other tees. */
export const placesInFiller: Readonly<Record<PlaceInFiller, PlaceDefinition>> = {
  'filler-pocket': {
    label: 'filler/plies around the pocket',
    stride: 4,
    between: [
      { place: 'filler', layer: -1 },
      { place: 'pocket-plies', layer: 0 },
    ],
  },
  'pocket-resin': { label: 'resin in the pocket', stride: 1 },
  'pocket-bond': { label: 'resin/ply at the pocket', stride: 4, between: [pocketResin, { place: 'pocket-plies' }] },
  'pocket-channel': { label: 'edge of the channel in the pocket', stride: 3, zone: 'pocket-resin', isEdge: true },
};

/** Of points in the joint's coordinates. */
export function strengthInFiller(joint: PocketTee, site: PocketSite): (point: SectionPoint) => PointStrength {
  const strengthAt = pocketStrengthAt(joint, site);
  return (point) => {
    const [x, y] = site.toFrame(point.x, point.y);
    return strengthAt({ ...point, x, y, place: back.get(point.place) ?? point.place });
  };
}
