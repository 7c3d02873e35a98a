import { formatSeconds } from '../show/index.js';
import type { ResultDocument, SearchDocument } from '../task/index.js';
import type { Timing } from './search-options.js';

/** How a search went, in a few lines. */
export function describeSearch({ seed, evaluations, runs }: SearchDocument, { seconds, workers }: Timing): string[] {
  const families = [...new Set(runs.map(({ family }) => family))];
  return [
    `search: seed ${seed}, ${evaluations} outlines in ${seconds < 10 ? `${seconds.toFixed(1)} s` : formatSeconds(seconds)} on ${workers} ${workers === 1 ? 'thread' : 'threads'}`,
    ...families.map((name) => {
      const own = runs.filter(({ family }) => family === name);
      return `  ${name}: ${own.map((run) => `${run.method} ${run.evaluations} (${run.stop})`).join(', ')}`;
    }),
  ];
}

/** What stands below every result: what the brief should be known for. */
export function describeCautions({ cautions }: ResultDocument): string[] {
  return cautions.map((text) => `note: ${text}`);
}
