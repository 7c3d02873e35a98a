import { choice, expectation, quantity, section, type Zod } from '../../input/index.js';

/** Section `strength`: how the strength of the whole joint is judged, and how much of it a channel must leave. */
export function strengthSection(z: Zod) {
  const flag = (sentence: string) =>
    z.meta(z.boolean({ error: () => expectation('true or false', 'write one of these without quotes') }), {
      description: sentence,
    });
  const slope = (sentence: string) => quantity(z, { unit: '1', above: 1, atMost: 100, sentence });
  const toughness = (mode: string) =>
    quantity(z, { unit: 'N/mm', above: 0, atMost: 20, sentence: `Critical energy release rate in ${mode}.` });
  const atDistance = section(
    z,
    {
      distance: quantity(z, {
        unit: 'mm',
        above: 0,
        atMost: 1000,
        sentence: 'Characteristic distance off the edge; a value of the material, from tests with holes.',
      }),
      average: z.default(flag('The stress averaged over the distance; otherwise the stress at its end.'), false),
    },
    'The edge is judged by the tension at a characteristic distance, or averaged over it.',
  );
  return z.prefault(
    section(
      z,
      {
        edge: z.default(
          z.meta(
            z.union([choice(z, ['peak'], 'The edge is judged by its largest hoop tension.'), atDistance], {
              error: () => expectation("'peak' or { distance: … }", 'write edge: peak, or edge: { distance: 0.3 }'),
            }),
            { description: 'Which stress at the edge of the channel is held against the transverse strength.' },
          ),
          'peak',
        ),
        cuspDistance: z.optional(
          quantity(z, {
            unit: 'mm',
            atLeast: 0,
            atMost: 1000,
            sentence:
              'Places nearer to a tip of the filler than this are not judged. Default: a tenth of the bend radius; below 0.06 bend radii there are none.',
          }),
        ),
        leastRetained: z.optional(
          quantity(z, {
            unit: '1',
            atLeast: 0,
            atMost: 10,
            sentence:
              'Least strength that a channel must retain, as a share of that without channel. Default: no limit.',
          }),
        ),
        crackGrowth: z.exactOptional(
          section(
            z,
            {
              length: quantity(z, {
                ...{ unit: 'mm', above: 0, atMost: 100 },
                sentence: 'How far a crack is taken to run from the end of the pocket between two plies.',
              }),
              modeI: toughness('mode I (opening)'),
              modeII: toughness('mode II (sliding)'),
            },
            'Whether cracks between plies grow out of a pocket (check, report). The values are those of the interface, from tests (1 N/mm = 1 kJ/m2).',
          ),
        ),
        startsAwayFromEdge: z.default(flag('Failure must not start at the edge of the channel.'), false),
        fatigue: z.prefault(
          section(
            z,
            {
              tension: z.default(
                slope('Slope of what splits under tension: edge, fillers, plies along the channel.'),
                10,
              ),
              delamination: z.default(slope('Slope for interfaces, bend, foot, web and skin.'), 10),
            },
            'Stress-life lines, life = (strength / stress)^slope; the defaults are common practice, without a source: replace them by tests.',
          ),
          {},
        ),
      },
      'How the strength of the whole joint is judged.',
    ),
    {},
  );
}
