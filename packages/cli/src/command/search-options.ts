import { availableParallelism, tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { type ResolvedBrief, UnmetError } from '@lumenfront/core';
import type { RunOptions } from '@lumenfront/optimizer';
import type { Command } from 'commander';
import { StoppedError } from '../failure.js';
import { checkTarget, writeTextFile } from '../files/index.js';
import type { Output, Streams } from '../output.js';
import { type Progress, startProgress } from '../show/index.js';
import { openWorkplace } from '../workplace.js';
import { addSeedOption, type CommonOptions, type SeedOption } from './common-options.js';
import { numberOption } from './option-values.js';
import { listenForStop } from './stop-signals.js';

/** Options of the commands that search. */
export interface SearchOptions extends CommonOptions, SeedOption {
  readonly workers?: number;
  readonly out?: string;
  readonly force?: boolean;
  readonly details?: boolean;
}

export function addSearchOptions(command: Command, force = 'replace an existing file'): void {
  addSeedOption(command);
  command
    .option(
      '--workers <number>',
      'threads that evaluate outlines (default: one per core, fewer for a short search); the result is the same',
      numberOption('--workers', { unit: '1', atLeast: 1, integer: true }),
    )
    .option('--out <file>', 'write the result to a file as well, as JSON')
    .option('--force', force)
    .option('--details', 'say how the search went as well: its runs, why they ended, how good the front is');
}

/**
 * Each worker compiles the engine for itself, which takes it seconds: with two a front of 4,000 outlines takes 1.15 times as long as with one, of 6,000 as long or less, a
 * whole one 0.6 times.
 */
const leastForWorker = 3000;

export function workersFor({ workers }: SearchOptions, { search }: ResolvedBrief): number {
  return workers ?? Math.max(1, Math.min(availableParallelism(), Math.floor(search.evaluations / leastForWorker)));
}

/** Where that leaves a core to nobody, it reports beside the search of a front. */
const idleBeside = ({ workers }: SearchOptions) => ({
  idle: workers === undefined ? Math.min(1, availableParallelism() - 1) : 0,
});

/** How long a search took, for people: never part of a result. */
export interface Timing {
  readonly seconds: number;
  readonly workers: number;
}

/**
 * Lets a search be ended by Ctrl-C with the best it has: `act` is given the signal and goes on to tell and write what there is. A second
 * Ctrl-C ends the process at once.
 *
 * @throws StoppedError once that is done
 */
export async function untilStopped(act: (signal: AbortSignal) => Promise<void>): Promise<void> {
  const stop = listenForStop();
  try {
    await act(stop.signal);
  } catch (error) {
    if (stop.signal.aborted && error instanceof UnmetError)
      throw new StoppedError(`stopped before any channel was found; so far ${error.message}`);
    throw error;
  } finally {
    stop.ignore();
  }
  if (stop.signal.aborted) throw new StoppedError('stopped before the search was done');
}

/** Searches of a brief: one for all that it leaves open. */
export const searchesOf = ({ choices = [] }: ResolvedBrief): number => Math.max(1, choices.length);

/** What is searched, and where that is told. */
export interface SearchTask {
  readonly brief: ResolvedBrief;
  readonly options: SearchOptions;
  readonly output: Output;
  readonly streams: Streams;
  readonly signal?: AbortSignal;
  /** All that is found will be reported. */
  readonly ahead?: boolean;
}

/**
 * Runs one search or more with their progress on the terminal, and times them. Refuses a file that could not be written before, not
 * after.
 */
export async function runTimed<Result>(
  { brief, options, output, streams: { stderr: stream }, signal, ahead }: SearchTask,
  run: (options: RunOptions) => Promise<Result>,
  searches = 1,
): Promise<[result: Result, timing: Timing]> {
  refuseTarget(options);
  const workers = workersFor(options, brief);
  const total = searches * brief.search.evaluations;
  let done = 0;
  const { quiet } = output;
  const progress: Progress = await startProgress({ label: 'search', total, unit: 'outlines', quiet, stream });
  const started = performance.now();
  try {
    const result = await run({
      workplace: openWorkplace(workers, output.note, ahead === true ? idleBeside(options) : undefined),
      ...(signal === undefined ? {} : { signal }),
      onProgress: ({ evaluations, designs }) => {
        done = evaluations;
        progress.update(evaluations, designs > 0 ? `${designs} designs` : '');
      },
    });
    if (signal?.aborted) output.note(`stopped after ${done} of ${total} outlines: this is the best so far`);
    return [result, { seconds: (performance.now() - started) / 1000, workers }];
  } finally {
    progress.stop();
  }
}

/** Refuses a file that could not be written before anything is computed, not after. */
export function refuseTarget({ out, force }: Pick<SearchOptions, 'out' | 'force'>): void {
  if (out !== undefined) checkTarget(out, { force: force === true });
}

/**
 * Tells a result, and writes the file that `--out` asks for. Where that cannot be written after all (a disk that has become full),
 * the result is kept among the temporary files of the machine: the work of a long search is not lost.
 *
 * @throws InputError if the file could not be written
 */
export function giveResult(
  document: object,
  text: () => string,
  { out, force }: Pick<SearchOptions, 'out' | 'force'>,
  output: Output,
): void {
  output.result(document, text);
  if (out === undefined) return;
  const content = `${JSON.stringify(document, null, 2)}\n`;
  try {
    writeTextFile(out, content, { force: force === true });
    output.note(`wrote ${out}`);
  } catch (error) {
    const kept = join(tmpdir(), `lumenfront-${process.pid}-${basename(out)}`);
    if (dirname(kept) !== dirname(out)) output.note(keepIn(kept, content));
    throw error;
  }
}

function keepIn(path: string, content: string): string {
  try {
    writeTextFile(path, content, { force: true });
    return `the result is kept in ${path}`;
  } catch {
    return `the result could not be kept in ${path} either`;
  }
}
