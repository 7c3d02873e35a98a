import { familySign } from '../picture/index.js';
import type { Sign } from './data.js';

const PATHS: Readonly<Record<string, string>> = {
  circle: 'M4.5 0A4.5 4.5 0 1 1 -4.5 0A4.5 4.5 0 1 1 4.5 0Z',
  square: 'M-4-4H4V4H-4Z',
  'triangle-up': 'M0-5L5 4H-5Z',
  'triangle-down': 'M0 5L5-4H-5Z',
  diamond: 'M0-6L4.5 0L0 6L-4.5 0Z',
};

/** The signs of the families as in the pictures, by the order in which the families first appear. */
export function signsOf(families: readonly string[]): Record<string, Sign> {
  const signs = [...new Set(families)].map((family, i): [string, Sign] => {
    const { shape, fill, stroke } = familySign(i);
    return [family, { path: PATHS[shape]!, fill: fill!, stroke: stroke! }];
  });
  return Object.fromEntries(signs);
}
