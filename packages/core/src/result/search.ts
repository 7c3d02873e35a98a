import type { Zod } from '../input/index.js';
import { figure, group, listOf, type Of, text, word } from './figure.js';
import { seed } from './header.js';

export function search(z: Zod) {
  return {
    seed: seed(z),
    evaluations: figure(z, '1', 'Outlines that were evaluated.'),
    runs: listOf(z, searchRun(z), 'How the runs ended.'),
  };
}

function searchRun(z: Zod) {
  return group(
    z,
    {
      family: text(z, 'Family of outlines.'),
      method: word(z, ['genetic', 'descent', 'polish', 'refinement'], 'Method.'),
      stop: text(z, 'Why it stopped.'),
      evaluations: figure(z, '1', 'Outlines that it evaluated.'),
    },
    'How one run of the search ended.',
  );
}

/** How one run of the search ended. */
export interface SearchRun extends Of<typeof searchRun> {}

function searchDocument(z: Zod) {
  return group(z, search(z), 'How the search went.');
}

/** How a search went. */
export interface SearchDocument extends Of<typeof searchDocument> {}
