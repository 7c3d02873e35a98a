import type { PickDocument, SearchDocument } from '@lumenfront/core';
import { formatSeconds } from '../show/index.js';
import type { Timing } from './search-options.js';

/** How a search went, in a few lines. */
export function describeSearch({ seed, evaluations, runs }: SearchDocument, { seconds, workers }: Timing): string[] {
  const families = [...new Set(runs.map(({ family }) => family))];
  return [
    `search: seed ${seed}, ${evaluations} outlines in ${seconds < 10 ? `${seconds.toFixed(1)} s` : formatSeconds(seconds)} on ${workers} ${workers === 1 ? 'thread' : 'threads'}`,
    ...families.map((name) => `  ${name}: ${describeRuns(runs.filter(({ family }) => family === name))}`),
  ];
}

/** Runs of one family, those of one method together: outlines and how they ended. */
function describeRuns(runs: SearchDocument['runs']): string {
  const methods = [...new Set(runs.map(({ method }) => method))];
  return methods
    .map((method) => {
      const own = runs.filter((run) => run.method === method);
      const outlines = own.reduce((sum, { evaluations }) => sum + evaluations, 0);
      const stops = [...new Set(own.map(({ stop }) => stop))].map((stop) => {
        const times = own.filter((run) => run.stop === stop).length;
        return times === own.length ? stop : `${stop} ${times}`;
      });
      return `${method} ${outlines}${own.length > 1 ? ` in ${own.length} runs` : ''} (${stops.join(', ')})`;
    })
    .join('; ');
}

/** What stands below every result: what the brief should be known for. */
export function describeCautions({ cautions }: Pick<PickDocument, 'cautions'>): string[] {
  return cautions.map((text) => `note: ${text}`);
}
