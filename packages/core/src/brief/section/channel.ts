import { hostKinds } from '../../host/index.js';
import { choice, expectation, list, quantity, section, type Zod } from '../../input/index.js';
import { familyNames } from '../../outline/index.js';

/** Section `channel`: which outlines are looked for. */
export function channelSection(z: Zod) {
  const families = [...new Set([...familyNames, ...hostKinds().flatMap((kind) => kind.families)])];
  const extent = (sentence: string) => quantity(z, { unit: 'mm', above: 0, atMost: 10_000, sentence });
  const place = (sentence: string) => quantity(z, { unit: 'mm', atLeast: -10_000, atMost: 10_000, sentence });
  return z.prefault(
    section(
      z,
      {
        families: z.default(
          list(
            z,
            choice(
              z,
              families as [string, ...string[]],
              'A family of outlines; inset (the border of the filler moved inwards) needs a tee.',
            ),
            {
              of: `outline families out of ${families.join(', ')}`,
              atLeast: 1,
              atMost: families.length,
              sentence: 'Families of outlines to search.',
            },
          ),
          ['ellipse', 'teardrop', 'spline'],
        ),
        wall: z.default(
          quantity(z, {
            unit: 'mm',
            above: 0,
            atMost: 1000,
            sentence: 'Least material between channel and laminate.',
          }),
          0.15,
        ),
        edgeRadius: z.default(
          quantity(z, {
            unit: 'mm',
            above: 0,
            atMost: 1000,
            sentence: 'Least radius of curvature of the edge of the channel.',
          }),
          0.15,
        ),
        mirror: z.meta(
          z.default(
            z.boolean({ error: () => expectation('true or false', 'write one of these without quotes') }),
            true,
          ),
          { description: 'Left-right symmetric outlines only.' },
        ),
        largest: z.optional(
          section(
            z,
            { width: extent('Largest width (along x).'), height: extent('Largest height (along y).') },
            'Largest extent of a channel. Default: 10 by 10 mm in a plate, no limit but the filler in a tee.',
          ),
        ),
        reference: z.optional(
          section(
            z,
            {
              family: z.default(choice(z, ['ellipse'], 'Outline family of the reference.'), 'ellipse'),
              at: z.meta(
                z.tuple([place('Across.'), place('Up from the base of the filler.')], {
                  error: () => expectation('a position [x, y] in mm', 'write, for example, [0, 1.25]'),
                }),
                { description: 'Centre of the reference [x, y]. Unit: mm.', unit: 'mm' },
              ),
              width: extent('Width of the reference (along x).'),
              height: extent('Height of the reference (along y).'),
            },
            'The channel that every design is compared with. Default: a circle of a tenth of the bend radius at the centre of the largest circle that fits the filler; in a plate, a circle of 1 mm.',
          ),
        ),
      },
      'Which channels are looked for.',
    ),
    {},
  );
}
