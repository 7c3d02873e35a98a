import type { Zod } from '../input/index.js';
import { design } from './design.js';
import { byName, figure, group, listOf, type Of } from './figure.js';
import { allow, header, seed } from './header.js';
import { search } from './search.js';

function made(z: Zod) {
  return group(
    z,
    {
      withinAllowed: figure(z, '1', 'Share of channels made like it that stay within the allowed peak.'),
      quantile: figure(z, '1', 'Share of made channels that stay within `peak`.'),
      peak: z.exactOptional(
        figure(z, 'MPa', 'The peak that they stay within; left out where more are no channels than may lie beyond.'),
      ),
      samples: figure(z, '1', 'Made channels that it was judged by.'),
    },
    'A channel as it is made.',
  );
}

/** What scatter leaves of a picked channel. */
export interface MadeDocument extends Of<typeof made> {}

function repeats(z: Zod) {
  const area = (sentence: string) => figure(z, 'mm²', sentence);
  return group(
    z,
    {
      seeds: listOf(
        z,
        group(z, { seed: seed(z), area: area('Area of its pick.') }, 'One search.'),
        'Every search that found one.',
      ),
      least: area('Least area.'),
      median: area('Median area.'),
      most: area('Largest area, of the pick that is given.'),
    },
    'Picks of searches that differ in their seed.',
  );
}

export function pick(z: Zod) {
  return group(
    z,
    {
      ...header(z, 'pick'),
      design: z.meta(design(z), { description: 'The largest channel within the allowed peak.' }),
      families: byName(z, design(z), 'The largest channel of each family that has one.'),
      reference: z.meta(design(z), { description: 'The reference channel.' }),
      allow: allow(z),
      made: z.meta(z.exactOptional(made(z)), {
        description: 'What scatter leaves of it, by the section scatter of the brief.',
      }),
      search: group(
        z,
        {
          ...search(z),
          repeats: z.meta(z.exactOptional(repeats(z)), {
            description: 'Where the search was repeated with other seeds.',
          }),
        },
        'How the search went.',
      ),
    },
    'The result of pick.',
  );
}

/** The result of `pick`. */
export interface PickDocument extends Of<typeof pick> {}
