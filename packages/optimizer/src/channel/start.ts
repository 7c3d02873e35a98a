import type { OutlineFamily, OutlineParameter } from '@lumenfront/core';
import type { Random } from '../random.js';

/** Outlines to begin with, each parameter drawn from where its family says that a search begins. */
export function firstOutlines({ parameters }: OutlineFamily, count: number, random: Random): Float64Array[] {
  return Array.from({ length: count }, () => Float64Array.from(parameters, (one) => firstValue(one, random.uniform())));
}

/** Share of a range about 0 that counts as calm. */
const calm = 0.2;

/** Where a search begins with a parameter, at a share of that range. */
export function firstValue({ start, lower, upper }: OutlineParameter, share: number): number {
  if (start === 'calm') return calm * (lower + share * (upper - lower));
  return lower + (start === 'small' ? share * share : share) * (upper - lower);
}
