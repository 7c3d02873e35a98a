import type { OutlineFamily } from '@lumenfront/core';
import type { Random } from '../random.js';

/** Share of their range from which the amplitudes of waves are drawn at the start. */
const calm = 0.2;

/**
 * Outlines to begin with. Drawn over the whole box, waves almost never give an admissible outline (none of 4000), small ones
 * often do: so waves begin near zero, and everything else anywhere.
 */
export function firstOutlines({ parameters }: OutlineFamily, count: number, random: Random): Float64Array[] {
  return Array.from({ length: count }, () =>
    Float64Array.from(parameters, ({ name, lower, upper }) => {
      const share = random.uniform();
      const isWave = /^(wave|skew|sideWarp|baseWarp)/.test(name);
      if (isWave) return calm * (lower + share * (upper - lower));
      // Small channels fit in most places.
      if (name === 'size' || name === 'width' || name === 'height') return lower + share * share * (upper - lower);
      return lower + share * (upper - lower);
    }),
  );
}
