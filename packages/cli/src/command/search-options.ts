import { availableParallelism } from 'node:os';
import type { ResolvedBrief } from '@lumenfront/core';
import type { RunOptions } from '@lumenfront/optimizer';
import type { Command } from 'commander';
import { checkTarget, writeTextFile } from '../files/index.js';
import type { Output } from '../output.js';
import { type Progress, startProgress } from '../show/index.js';
import { openWorkplace } from '../workplace.js';
import type { CommonOptions } from './common-options.js';
import { numberOption } from './option-values.js';

/** Options of the commands that search. */
export interface SearchOptions extends CommonOptions {
  readonly workers?: number;
  readonly out?: string;
  readonly force?: boolean;
}

export function addSearchOptions(command: Command): void {
  command
    .option(
      '--workers <number>',
      'threads that evaluate outlines (default: one per core); the result is the same',
      numberOption('--workers', { unit: '1', atLeast: 1, integer: true }),
    )
    .option('--out <file>', 'write the result to a file as well, as JSON')
    .option('--force', 'replace an existing file');
}

/** Fewer outlines than this are evaluated sooner than workers have started. */
const fewEvaluations = 2000;

export function workersFor({ workers }: SearchOptions, { search }: ResolvedBrief): number {
  return workers ?? (search.evaluations < fewEvaluations ? 1 : availableParallelism());
}

/** How long a search took, for people: never part of a result. */
export interface Timing {
  readonly seconds: number;
  readonly workers: number;
}

/** Runs a search with its progress on the terminal, and times it. Refuses a file that could not be written before, not after. */
export async function runTimed<Result>(
  brief: ResolvedBrief,
  options: SearchOptions,
  output: Output,
  stream: NodeJS.WritableStream,
  run: (options: RunOptions) => Promise<Result>,
  searches = 1,
): Promise<[result: Result, timing: Timing]> {
  if (options.out !== undefined) checkTarget(options.out, { force: options.force === true });
  const workers = workersFor(options, brief);
  const progress: Progress = await startProgress({
    label: 'search',
    total: searches * brief.search.evaluations,
    unit: 'outlines',
    quiet: output.quiet,
    stream,
  });
  const started = performance.now();
  try {
    const result = await run({
      workplace: openWorkplace(workers, output.note),
      onProgress: ({ evaluations, designs }) => progress.update(evaluations, designs > 0 ? `${designs} designs` : ''),
    });
    return [result, { seconds: (performance.now() - started) / 1000, workers }];
  } finally {
    progress.stop();
  }
}

/** Writes the file that `--out` asks for. */
export function writeResult(document: object, { out, force }: SearchOptions, output: Output): void {
  if (out === undefined) return;
  writeTextFile(out, `${JSON.stringify(document, null, 2)}\n`, { force: force === true });
  output.note(`wrote ${out}`);
}
