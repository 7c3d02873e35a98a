import { quantity, section, type Zod } from '../field.js';

/** Section `search`: how hard to look. */
export function searchSection(z: Zod) {
  return section(
    z,
    {
      seed: quantity(z, {
        unit: '1',
        atLeast: 0,
        atMost: Number.MAX_SAFE_INTEGER,
        integer: true,
        sentence: 'Seed of the random numbers: the same seed gives the same result.',
      }).default(1),
      evaluations: quantity(z, {
        unit: '1',
        atLeast: 100,
        atMost: 100_000_000,
        integer: true,
        sentence: 'Most outlines to evaluate.',
      }).default(20_000),
    },
    'How hard to look.',
  ).prefault({});
}
