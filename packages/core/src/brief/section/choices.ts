import { expectation, list, type Zod } from '../../input/index.js';

/** Values for one path at most, and combinations of all. */
export const mostChoices = 60;

/** Section `choices`: what is open beside the outline: path -> values. */
export function choicesSection(z: Zod) {
  return z.meta(
    z.optional(
      z.record(
        z.string(),
        list(z, z.meta(z.unknown(), { description: 'A value.' }), {
          of: 'values',
          atLeast: 2,
          atMost: mostChoices,
          sentence: 'Values to choose from, each as it would stand there.',
        }),
        {
          error: () =>
            expectation(
              'a mapping of paths to lists of values',
              'write, for example, channels.number: [1, 2] and host.pocket.above: [2, 4, 6]',
            ),
        },
      ),
    ),
    {
      description:
        'What is open beside the outline: values for keys of host, channel or channels, by their path (channels.number: [1, 2]). front searches every combination, with search.evaluations each, and tells one front of all.',
    },
  );
}
