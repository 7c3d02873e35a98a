import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { InputError, UnmetError } from '@lumenfront/core';
import { type Command, Option } from 'commander';
import { writeTextFile } from '../files/index.js';
import { createOutput, type Output, type Streams } from '../output.js';
import { seriesPicture } from '../picture/index.js';
import { type Progress, startProgress } from '../show/index.js';
import {
  createCasePool,
  createLocalEngine,
  createQueueEngine,
  queueAddress,
  readShard,
  runSweep,
  type Shard,
  type SweepEnd,
  type SweepFigureName,
  serveQueue,
  summaryCsv,
  sweepFigures,
  sweepPlot,
} from '../sweep/index.js';
import { readVersion } from '../version.js';
import { addSeedOption, type CommonOptions, type SeedOption } from './common-options.js';
import { numberOption } from './option-values.js';
import { listenForStop } from './stop-signals.js';
import { type PlanOptions, planCases, type SweepPlan } from './sweep-plan.js';
import { sweepText } from './sweep-text.js';
import { terminalOf } from './terminal.js';

interface SweepOptions extends CommonOptions, SeedOption, PlanOptions {
  readonly out: string;
  readonly workers?: number;
  readonly shard?: Shard;
  readonly retry?: boolean;
  readonly queue?: string;
  readonly serve?: boolean;
  readonly lease: number;
  readonly plot?: SweepFigureName;
  readonly over?: string;
}

const help = `
VALUES are separated by commas; 'first..last step width' is a range; lists stand in brackets:
  --vary host.bendRadius=4..8
  --vary 'host.overlaminate.layup=[45,-45,0,90],[0,90,45,-45]' --vary host.support=clamped,simple
  --vary 'loads.pull.force=10..30 step 5' --vary search.seed=1..3

A sweep that was stopped or killed goes on where it was when it is called again. Results of
shards that stand in one folder become one when the sweep is called there without --shard.

On many machines, with a Redis or Valkey server that all of them reach:
  lumenfront sweep --queue redis://HOST:6379 --serve      on each of them
  lumenfront sweep --queue redis://HOST:6379 --vary …     on one, to put the cases and collect`;

export function define(command: Command, streams: Streams): void {
  addSeedOption(command);
  command
    .argument('[brief]', 'brief to vary (without it: the starter brief)')
    .option(
      '--vary <path=values>',
      'values for one place of the brief; may be given several times',
      (written: string, before: readonly string[] = []) => [...before, written],
    )
    .option('--plan <file>', 'the same from a YAML or JSON file: vary, combine (cross, zip), run (pick, front)')
    .option('--zip', 'first values together, second values together, … (without it: every value with every other)')
    .addOption(new Option('--run <command>', 'what is run for each case (default: pick)').choices(['pick', 'front']))
    .option('--out <folder>', 'folder of the results', 'sweep')
    .option(
      '--workers <number>',
      'cases that are run at a time on this machine (default: one per core)',
      numberOption('--workers', { unit: '1', atLeast: 1, integer: true }),
    )
    .option('--shard <i/n>', 'run only part i of n, with a file of results of its own', readShard)
    .addOption(
      new Option(
        '--plot <figure>',
        'what the plot shows of every case (default: of picks the area, of fronts the fronts); called again, a finished sweep only plots',
      ).choices(Object.keys(sweepFigures)),
    )
    .option('--over <path>', 'the varied value that the plot goes along (default: the first with numbers)')
    .option('--retry', 'run cases again that failed before')
    .option('--queue <url>', 'have the cases run by the workers of a queue')
    .option('--serve', 'be a worker of the queue until stopped')
    .option(
      '--lease <seconds>',
      'with --serve: a worker that gave no sign for so long is dead, and others take its cases',
      numberOption('--lease', { unit: 's', atLeast: 1 }),
      30,
    )
    .addHelpText('after', help)
    .action(async (file: string | undefined, options: SweepOptions) => {
      const output = createOutput(options, streams);
      if (options.serve) await serve(file, options, output);
      else await sweep(file, options, output, streams);
    });
}

async function sweep(file: string | undefined, options: SweepOptions, output: Output, streams: Streams) {
  const { out: folder, shard, queue } = options;
  const version = readVersion();
  const engine =
    queue === undefined
      ? createLocalEngine(() => createCasePool(options.workers ?? availableParallelism()))
      : createQueueEngine(queueAddress(queue, version), output.note);
  const plan = await planCases(file, options, version);
  refuseForeignPath(options, plan);
  const stop = listenForStop();
  let progress: Progress | undefined;
  try {
    const end = await runSweep({
      cases: plan.cases,
      folder,
      version,
      retry: options.retry === true,
      engine,
      signal: stop.signal,
      ...(shard === undefined ? {} : { shard }),
      onStart: async (total) => {
        const label = shard === undefined ? 'sweep' : `shard ${shard.number}/${shard.count}`;
        progress = await startProgress({ label, total, unit: 'cases', quiet: output.quiet, stream: streams.stderr });
      },
      onProgress: (done, failed, unmet) =>
        progress?.update(
          done,
          [...(unmet > 0 ? [`${unmet} cannot be met`] : []), ...(failed > 0 ? [`${failed} failed`] : [])].join(', '),
        ),
    });
    progress?.stop();
    if (end.complete) await report(plan, end, options, output, streams);
    else {
      output.note(`stopped; ${end.figures.length} results are in ${folder}, the same command goes on from there`);
      stop.obey();
    }
  } finally {
    progress?.stop();
    stop.ignore();
  }
}

/** A plot goes along what is varied. */
function refuseForeignPath({ over }: SweepOptions, { cases }: SweepPlan): void {
  const paths = Object.keys(cases[0]!.vary);
  if (over === undefined || paths.includes(over)) return;
  throw new InputError({
    path: '--over',
    expected: `a value that is varied: ${paths.join(', ')}`,
    received: over,
    remedy: 'name one of them, or leave --over out',
  });
}

async function report(plan: SweepPlan, end: SweepEnd, options: SweepOptions, output: Output, { stdout }: Streams) {
  const { out: folder, shard } = options;
  const { figures, computed } = end;
  const written: string[] = [];
  // A shard alone tells little, and its neighbours may be writing.
  if (shard === undefined) {
    const texts = {
      'summary.csv': summaryCsv(figures),
      'plot.svg': await seriesPicture(
        sweepPlot(plan.title, plan.kind, plan.units, figures, {
          ...(options.plot === undefined ? {} : { figure: options.plot }),
          ...(options.over === undefined ? {} : { over: options.over }),
        }),
      ),
    };
    for (const [name, text] of Object.entries(texts)) {
      writeTextFile(join(folder, name), text, { force: true });
      written.push(join(folder, name));
    }
  }
  const failed = figures.filter(({ status }) => status === 'failed');
  const unmet = figures.filter(({ status }) => status === 'unmet');
  const result = {
    folder,
    run: plan.kind,
    cases: figures.length,
    computed,
    unmet: unmet.length,
    failed: failed.length,
    files: written,
    figures,
  };
  output.result(result, () => sweepText(result, plan.units, terminalOf(stdout)));
  const without = [...unmet, ...failed];
  if (shard === undefined && without.length === figures.length)
    throw new UnmetError(`none of ${without.length} cases; the first one: ${without[0]!.error}`);
}

async function serve(file: string | undefined, options: SweepOptions, output: Output) {
  const refuse = (expected: string, received: string, remedy: string) =>
    new InputError({ path: '--serve', expected, received, remedy });
  if (options.queue === undefined)
    throw refuse('the --queue to serve', 'no --queue', 'add, for example, --queue redis://127.0.0.1:6379');
  if (file !== undefined || options.vary !== undefined || options.plan !== undefined)
    throw refuse(
      'no brief and nothing to vary: a worker runs what others put into the queue',
      'a sweep of its own',
      'put the cases by the same command without --serve',
    );
  const version = readVersion();
  const address = queueAddress(options.queue, version);
  const pool = await createCasePool(options.workers ?? availableParallelism());
  const stop = listenForStop();
  let served = 0;
  let failed = 0;
  stop.signal.addEventListener('abort', () =>
    output.note('stopping once the running cases are done; again to stop now'),
  );
  try {
    await serveQueue(address, pool, {
      version,
      lease: options.lease,
      signal: stop.signal,
      note: output.note,
      onReady: () => output.note(`serving ${pool.workers} cases at a time, until stopped`),
      onDone: ({ status }) => {
        served++;
        if (status === 'failed') failed++;
      },
    });
  } finally {
    stop.ignore();
    await pool.close();
  }
  const result = { served, failed };
  output.result(result, () => `served ${served} cases, ${failed} of them failed`);
}
