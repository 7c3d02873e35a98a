import { doubtsAbout, signed, tellDoubts } from '../../input/index.js';
import { cureLoad, type LoadDefinition, pressureLoad } from '../load.js';

/** What can act on every section; forces on its curves are the user's own. */
export const sectionLoads: readonly LoadDefinition[] = [cureLoad, pressureLoad];

/** A load of the user's: a force on curves, in directions of the user's. */
function forceLoad(name: string): LoadDefinition {
  return {
    name,
    sentence: 'Forces on named curves, as host.loads directs them.',
    sizes: {
      force: {
        unit: 'N/mm',
        atLeast: -100_000,
        atMost: 100_000,
        sentence: 'Force per length of channel; times the directions under host.loads.',
        default: 100,
      },
    },
    example: '{ force: 100 }',
    doubts: ({ force = 0 }) =>
      tellDoubts(doubtsAbout(`loads.${name}`, 'force', force, 'N/mm', signed(force, 0.05, 3000))),
  };
}

/** Loads that a brief's host names itself, from what is written there or from a joint: names are all that is looked at. */
export function ownLoads(written: unknown): readonly LoadDefinition[] {
  const loads = typeof written === 'object' && written !== null ? (written as { loads?: unknown }).loads : undefined;
  if (typeof loads !== 'object' || loads === null || Array.isArray(loads)) return [];
  return Object.keys(loads)
    .filter((name) => !sectionLoads.some((load) => load.name === name))
    .map(forceLoad);
}
