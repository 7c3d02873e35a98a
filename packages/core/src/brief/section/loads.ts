import type { LoadDefinition } from '../../host/index.js';
import { expectation, quantity, section, userName, type Zod } from '../../input/index.js';

/** Section `loads`: what acts, at its given size. A load that is left out does not act. */
export function loadsSection(z: Zod, known: readonly LoadDefinition[]) {
  const sized = ({ sizes, sentence }: LoadDefinition) =>
    z.optional(
      section(
        z,
        Object.fromEntries(
          Object.entries(sizes).map(([key, size]) => [key, z.default(quantity(z, size), size.default)] as const),
        ),
        sentence,
      ),
    );
  return section(
    z,
    Object.fromEntries(known.map((load) => [load.name, sized(load)] as const)),
    'What acts on the joint. A load that is left out does not act.',
  );
}

/** Section `cases`: name -> factor per load. */
export function casesSection(z: Zod, known: readonly LoadDefinition[]) {
  const factor = (load: string) =>
    z.optional(
      quantity(z, {
        unit: '1',
        atLeast: -10_000,
        atMost: 10_000,
        sentence: `How many times the load ${load} acts, at its size under loads; left out, it does not act.`,
      }),
    );
  return z.meta(
    z.optional(
      z.record(
        userName(z),
        section(
          z,
          Object.fromEntries(known.map(({ name }) => [name, factor(name)] as const)),
          'One state to survive: a factor per load.',
        ),
        { error: () => expectation('a mapping of case to factors', 'write, for example, pull-off: { pull: 1 }') },
      ),
    ),
    {
      description:
        'Load cases to survive, each a factor per load; the peak of a channel is the worst over them. Default: each load alone, once.',
    },
  );
}
