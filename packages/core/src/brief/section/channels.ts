import { choice, expectation, quantity, section, type Zod } from '../../input/index.js';

/** Section `channels`: how many of them lie side by side. */
export function channelsSection(z: Zod) {
  return z.prefault(
    section(
      z,
      {
        number: z.meta(
          z.default(
            z.union(
              [
                quantity(z, {
                  unit: '1',
                  integer: true,
                  atLeast: 1,
                  atMost: 8,
                  sentence:
                    '1: one channel. More: side by side, symmetric about the axis, neighbours mirror images of each other; section `channel` tells of each of them.',
                }),
                choice(
                  z,
                  ['row'],
                  'An endless row of pockets with one channel each, in a laminate: one cell of it is solved, a pitch wide.',
                ),
              ],
              { error: () => expectation('1 to 8, or row', 'write number: 2, for example, or number: row') },
            ),
            1,
          ),
          {
            description:
              '1: one channel. 2 to 8: side by side, symmetric about the axis, neighbours mirror images of each other; of an odd number the middle one is mirror-symmetric. row: an endless row of pockets with one channel each, in a laminate. Section `channel` tells of each of them.',
          },
        ),
        pitch: z.optional(
          quantity(z, {
            unit: 'mm',
            above: 0,
            atMost: 10_000,
            sentence:
              'Distance of neighbours, from middle to middle. Left out: of two the search finds it; more of them and a row need it.',
          }),
        ),
        connected: z.default(
          choice(
            z,
            ['parallel', 'series'],
            'How channels are supplied: all at once (parallel), or one after the other as one circuit, of two supply and return (series); in a row two and two.',
          ),
          'parallel',
        ),
      },
      'How many channels lie side by side.',
    ),
    {},
  );
}
