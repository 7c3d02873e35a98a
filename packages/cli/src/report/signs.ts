import type { Sign } from './data.js';

/** Shapes within 6 px, in the order in which families first appear; as in the pictures. */
const PATHS = [
  'M4.5 0A4.5 4.5 0 1 1 -4.5 0A4.5 4.5 0 1 1 4.5 0Z',
  'M-4-4H4V4H-4Z',
  'M0-5L5 4H-5Z',
  'M0-6L4.5 0L0 6L-4.5 0Z',
  'M0 5L5-4H-5Z',
];

/** The signs of the families, by the order in which they first appear; the style has a colour for each of five tones. */
export function signsOf(families: readonly string[]): Record<string, Sign> {
  const signs = [...new Set(families)].map((family, i): [string, Sign] => {
    const tone = i % PATHS.length;
    return [family, { path: PATHS[tone]!, tone }];
  });
  return Object.fromEntries(signs);
}
