import type { Zod } from '../input/index.js';
import { byName, figure, flag, group, listOf, type Of, text, unbounded, word } from './figure.js';

function crackInCase(z: Zod) {
  return group(
    z,
    {
      modeI: figure(z, 'N/mm', 'Energy release rate of mode I at the loads as given; 0 where the crack is closed.'),
      modeII: figure(z, 'N/mm', 'Energy release rate of mode II at the loads as given.'),
      closed: flag(z, 'Whether its faces press against each other at the loads as given.'),
      loadFactor: unbounded(z, '1', 'Load factor at which it grows; the cure is held, a case of cure alone is scaled.'),
      error: figure(z, '1', 'Of the energy of both modes, as a share of it: difference of two meshes.'),
    },
    'A crack in one case.',
  );
}

function crack(z: Zod) {
  return group(
    z,
    {
      end: word(
        z,
        ['left', 'right'],
        'The end of the pocket that it runs out of; in a bend the right one is that towards the foot.',
      ),
      below: figure(z, '1', 'The ply below the interface that it runs along, as the brief counts plies.'),
      between: text(z, 'Angles of the plies below and above it, degrees.'),
      cases: byName(z, crackInCase(z), 'Per case.'),
    },
    'One crack.',
  );
}

export function crackGrowth(z: Zod) {
  return group(
    z,
    {
      length: figure(z, 'mm', 'How far each crack runs from the end of the pocket.'),
      modeI: figure(z, 'N/mm', 'Toughness of the interface in mode I.'),
      modeII: figure(z, 'N/mm', 'Toughness of the interface in mode II.'),
      loadFactor: unbounded(z, '1', 'Least load factor at which one of them grows.'),
      cracks: listOf(z, crack(z), 'One at a time.'),
    },
    'Cracks that run out of the pocket between plies, by the independent mesh.',
  );
}

/** Cracks that run out of a pocket between plies: what they set free, and at which loads they grow. */
export interface CrackGrowth extends Of<typeof crackGrowth> {}
