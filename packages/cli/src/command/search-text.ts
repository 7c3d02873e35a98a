import type { DesignDocument, PickDocument, ResolvedBrief, SearchDocument } from '@lumenfront/core';
import { formatSeconds } from '../show/index.js';
import { calledAs } from './called-as.js';
import type { Timing } from './search-options.js';

/** How a search went, in one line. */
export function describeSearch({ seed, evaluations }: SearchDocument, { seconds, workers }: Timing): string {
  return `search: seed ${seed}, ${evaluations} outlines in ${seconds < 10 ? `${seconds.toFixed(1)} s` : formatSeconds(seconds)} on ${workers} ${workers === 1 ? 'thread' : 'threads'}`;
}

/** How the runs of each family ended. */
export function describeFamilies({ runs }: SearchDocument): string[] {
  const families = [...new Set(runs.map(({ family }) => family))];
  return families.map((name) => `  ${name}: ${describeRuns(runs.filter(({ family }) => family === name))}`);
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

/** Commands to type next, a line each with what it does. */
export function nextCommands(entries: ReadonlyArray<readonly [what: string, command: string]>): string[] {
  const width = Math.max(...entries.map(([what]) => what.length));
  const program = calledAs(process.cwd(), process.argv[1] ?? '');
  return ['next:', ...entries.map(([what, command]) => `  ${what.padEnd(width)}  ${program} ${command}`)];
}

/** What more nodes change, and what the model is thought to be off by, at most. */
export function describeErrors(designs: readonly Pick<DesignDocument, 'change' | 'accuracy'>[]): string {
  const most = (shares: readonly number[]) => `${(100 * Math.max(...shares.map(Math.abs))).toFixed(2)} %`;
  const finer = designs.flatMap(({ accuracy }) => (accuracy === undefined ? [] : [accuracy]));
  const which = designs.length > 1 ? 'a peak by at most' : 'the peak by at most';
  return (
    `  twice the nodes change ${which} ${most(designs.map(({ change }) => change))}` +
    `${finer.length > 0 ? `, the model is thought to be off by ${most(finer)}` : ''} of the largest hoop stress`
  );
}

/** What tells of channels as they are made, which two are not judged as. */
export const scatterOf = (
  { channel }: Pick<ResolvedBrief, 'channel'>,
  command: string,
): [what: string, command: string][] => (channel.group === undefined ? [['as it is made', command]] : []);
