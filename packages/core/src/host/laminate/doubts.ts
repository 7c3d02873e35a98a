import { doubtsAbout, tellDoubts } from '../../input/index.js';
import { doubtsAboutAngles } from '../layup-field.js';
import type { PocketFields } from './pocket-section.js';
import type { LaminateSection } from './section.js';

// Ranges: common practice, no source.

/** What is hardly meant in the shape and the layup of a laminate, and what its model takes from its user. */
export function laminateDoubts({ layup, plyThickness, width, pocket }: LaminateSection): string[] {
  const about = (of: string, key: string, value: number, from: number, to: number) =>
    doubtsAbout(of, key, value, 'mm', [from, to]);
  return [
    ...tellDoubts([
      ...about('host', 'plyThickness', plyThickness, 0.015, 5),
      ...about('host', 'width', width, 2, 5000),
    ]),
    ...doubtsAboutAngles('host.layup', layup),
    ...pocketDoubts(pocket),
  ];
}

/** What is hardly meant in a pocket, and what its model takes from its user. */
export function pocketDoubts(pocket: PocketFields): string[] {
  const about = (key: string, value: number, from: number, to: number) =>
    doubtsAbout('host.pocket', key, value, 'mm', [from, to]);
  return [
    ...tellDoubts(
      pocket.made === 'cut'
        ? about('width', pocket.width, 0.1, 100)
        : [...about('height', pocket.height, 0.05, 10), ...about('film', pocket.film, 0.005, 1)],
    ),
    'host.pocket: resin yields and relaxes while it cools; loads.cure.deltaT must be the effective change of temperature, less than that from its gel point',
    ...(pocket.made === 'drape'
      ? [
          'host.pocket: at which stress plies kink where they drape is a first estimate; hold it against tests in compression',
        ]
      : []),
  ];
}
