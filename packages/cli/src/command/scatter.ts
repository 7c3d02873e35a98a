import { InputError, outlineOf, type ResolvedBrief, resultKindOf, wholeRoom } from '@lumenfront/core';
import type { PickedChannel } from '@lumenfront/optimizer';
import { refuseChoices, runFront, runScatterFront, runScatterStudy } from '@lumenfront/optimizer';
import type { Command } from 'commander';
import { readJsonFile } from '../files/index.js';
import { createOutput, type Output, type Streams } from '../output.js';
import { startProgress } from '../show/index.js';
import { openWorkplace } from '../workplace.js';
import { readChannelFile } from './channel-file.js';
import { forceOfChannel } from './common-options.js';
import { givenOutline } from './given-outline.js';
import { loadBrief } from './load-brief.js';
import { numberOption } from './option-values.js';
import { readResultFile, refuseOtherBrief } from './result-file.js';
import { scatterFrontText, scatterStudyText } from './scatter-text.js';
import { addSearchOptions, giveResult, refuseTarget, runTimed, type SearchOptions } from './search-options.js';
import { terminalOf } from './terminal.js';

interface ScatterOptions extends SearchOptions {
  readonly channel?: string;
  readonly design?: number;
  readonly evaluations: number;
}

/** Some 20 s on one core. */
const usualEvaluations = 10_000;

export function define(command: Command, streams: Streams): void {
  command
    .argument(
      '[brief]',
      'brief of the joint (without it: the starter brief); how channels scatter stands in its section scatter',
    )
    .option(
      '--channel <file>',
      'judge one channel: a channel file, or what pick or front wrote with --json or --out; of a front without --design, make the front on the quantile of the peak (without --channel: search that front first)',
    )
    .option(
      '--design <number>',
      'which design of a front, from 1, with --channel',
      numberOption('--design', { unit: '1', atLeast: 1, integer: true }),
    )
    .option(
      '--evaluations <number>',
      'made channels to solve at most while designs are improved; what judges them comes on top',
      numberOption('--evaluations', { unit: '1', atLeast: 0, integer: true }),
      usualEvaluations,
    );
  addSearchOptions(command, forceOfChannel);
  command.action(async (file: string | undefined, options: ScatterOptions) => {
    const output = createOutput(options, streams);
    refuseContradiction(options);
    refuseTarget(options);
    const asked = await loadBrief(file, options);
    const workplace = openWorkplace(1, output.note);
    const { width } = terminalOf(streams.stdout);
    const isFront = options.design === undefined && isFrontFile(options.channel);
    if (options.channel !== undefined && !isFront) {
      const { brief, outline: data } = await readChannelFile(asked, { ...options, channel: options.channel }, output);
      // Refuses what crosses itself or leaves the filler.
      givenOutline(data, brief, options.channel);
      const study = runScatterStudy(brief, outlineOf(data, wholeRoom(brief)), workplace);
      giveResult(study, () => scatterStudyText(study, width), options, output);
      return;
    }
    refuseChoices(asked, 'judge one design as it is made: --channel with --design');
    const brief = asked;
    const given =
      options.channel === undefined
        ? await searched(brief, options, output, streams)
        : await read(options.channel, brief, options, output);
    const progress = await startProgress({
      label: 'scatter',
      total: 100,
      unit: 'percent',
      quiet: output.quiet,
      stream: streams.stderr,
    });
    const front = withEnd(progress.stop, () =>
      runScatterFront(brief, given, {
        workplace,
        evaluations: options.evaluations,
        onProgress: ({ evaluations, most }) => progress.update(Math.floor((100 * evaluations) / most)),
      }),
    );
    giveResult(front, () => scatterFrontText(front, width), options, output);
  });
}

/** A front is taken as a whole where no design of it is named. */
function isFrontFile(path: string | undefined): boolean {
  return path !== undefined && resultKindOf(readJsonFile(path, 'a channel')) === 'front';
}

function withEnd<Result>(end: () => void, run: () => Result): Result {
  try {
    return run();
  } finally {
    end();
  }
}

function refuseContradiction({ channel, design }: ScatterOptions): void {
  if (channel === undefined && design !== undefined)
    throw new InputError({
      path: '--design',
      expected: '--channel beside it',
      received: '--design alone',
      remedy: 'name the front with --channel',
    });
}

/** The front of channels as drawn, and what each family has by itself. */
async function searched(
  brief: ResolvedBrief,
  options: ScatterOptions,
  output: Output,
  streams: Streams,
): Promise<PickedChannel[]> {
  const [{ designs, families }] = await runTimed({ brief, options, output, streams }, (run) => runFront(brief, run));
  return [...designs, ...Object.values(families).flat()];
}

/** The same from a file. */
async function read(
  path: string,
  brief: ResolvedBrief,
  options: ScatterOptions,
  output: Output,
): Promise<PickedChannel[]> {
  const { designs, families, brief: mark } = await readResultFile(path);
  refuseOtherBrief(path, mark, brief, options, output);
  return [...designs, ...Object.values(families).flat()];
}
