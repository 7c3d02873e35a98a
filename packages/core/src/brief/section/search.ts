import { choice, quantity, section, type Zod } from '../../input/index.js';

/** Section `search`: how hard to look, and at what. */
export function searchSection(z: Zod) {
  return z.prefault(
    section(
      z,
      {
        seed: z.default(
          quantity(z, {
            unit: '1',
            atLeast: 0,
            atMost: Number.MAX_SAFE_INTEGER,
            integer: true,
            sentence: 'Seed of the random numbers: the same seed gives the same result.',
          }),
          1,
        ),
        evaluations: z.default(
          quantity(z, {
            unit: '1',
            atLeast: 100,
            atMost: 100_000_000,
            integer: true,
            sentence: 'Most outlines to evaluate.',
          }),
          20_000,
        ),
        enlarge: z.default(
          choice(
            z,
            ['area', 'conductance', 'flow'],
            'What the front makes large: the area of the channel, mm², or its conductance (flow rate times viscosity over pressure gradient), mm⁴; flow is the older word for it. Not asked by pick, which looks for area.',
          ),
          'area',
        ),
        against: z.default(
          choice(
            z,
            ['peak', 'load-factor', 'strength-retained'],
            'What the front trades for it: the peak stress at the edge, which is kept small; or the load factor to first failure of the whole joint or the share of its strength that it retains, which are made large. Not asked by pick, which keeps the peak within allow.',
          ),
          'peak',
        ),
      },
      'How hard to look, and at what.',
    ),
    {},
  );
}
