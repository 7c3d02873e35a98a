import { choice, quantity, section, type Zod } from '../../input/index.js';

/** Section `channels`: how many of them lie side by side. */
export function channelsSection(z: Zod) {
  return section(
    z,
    {
      number: quantity(z, {
        unit: '1',
        integer: true,
        atLeast: 1,
        atMost: 2,
        sentence:
          '1: one channel. 2: a pair left and right of the axis, mirror images of each other; section `channel` tells of each of them.',
      }).default(1),
      pitch: quantity(z, {
        unit: 'mm',
        above: 0,
        atMost: 10_000,
        sentence: 'Distance of two channels, from middle to middle. Left out: the search finds it.',
      }).optional(),
      connected: choice(
        z,
        ['parallel', 'series'],
        'How two channels are supplied: both at once (parallel), or one after the other, supply and return (series).',
      ).default('parallel'),
    },
    'How many channels lie side by side.',
  ).prefault({});
}
