import { availableParallelism } from 'node:os';
import {
  type DesignDocument,
  type FrontDocument,
  InputError,
  isVerified,
  objectiveCosts,
  objectiveSizes,
  type ResolvedBrief,
  type VerifiedDesign,
} from '@lumenfront/core';
import {
  evenlySpread,
  type RunOptions,
  runEachLoad,
  runFront,
  runRepeats,
  sizeOf,
  tolerated,
  verifyFront,
} from '@lumenfront/optimizer';
import { type Command, Option } from 'commander';
import { DisagreementError } from '../failure.js';
import { createOutput, type Streams } from '../output.js';
import { startProgress } from '../show/index.js';
import { openWorkplace } from '../workplace.js';
import { describeDisagreement } from './describe-disagreement.js';
import { frontText } from './front-text.js';
import { loadBrief } from './load-brief.js';
import { numberOption } from './option-values.js';
import {
  addSearchOptions,
  giveResult,
  runTimed,
  type SearchOptions,
  type SearchTask,
  searchesOf,
  untilStopped,
} from './search-options.js';
import { terminalOf } from './terminal.js';

interface FrontOptions extends SearchOptions {
  readonly verify: number;
  readonly repeat: number;
  readonly eachLoad?: boolean;
  readonly enlarge?: keyof typeof objectiveSizes;
  readonly against?: keyof typeof objectiveCosts;
}

/** Designs that a front shows of those it has, and verifies. */
const usuallyShown = 12;

export function define(command: Command, streams: Streams): void {
  command.argument('[brief]', 'brief to search (without it: the starter brief)');
  addSearchOptions(command);
  command
    .addOption(
      new Option('--enlarge <size>', "what the front makes large, instead of the brief's search.enlarge").choices(
        Object.keys(objectiveSizes),
      ),
    )
    .addOption(
      new Option('--against <figure>', "what it trades for it, instead of the brief's search.against").choices(
        Object.keys(objectiveCosts),
      ),
    )
    .option(
      '--verify <number>',
      'designs to solve by the independent mesh as well, of those that are shown; 0 for none',
      numberOption('--verify', { unit: '1', atLeast: 0, integer: true }),
      usuallyShown,
    )
    .option(
      '--repeat <number>',
      "searches, each with a seed of its own from the brief's on: tells what chance does to the front",
      numberOption('--repeat', { unit: '1', atLeast: 1, integer: true }),
      1,
    )
    .option(
      '--each-load',
      'search for each load by itself as well, and tell which outline it asks for: one more search for each',
    )
    .action(async (file: string | undefined, options: FrontOptions) => {
      const output = createOutput(options, streams);
      const brief = withObjective(await loadBrief(file, options), options);
      refuseChoices(brief, options);
      await untilStopped(async (signal) => {
        const task = { brief, options, output, streams, signal, ahead: true };
        const [found, timing] = await runTimed(
          task,
          (run) => searched(brief, options, run),
          options.repeat * searchesOf(brief) + (options.eachLoad ? Object.keys(brief.loads).length : 0),
        );
        const sizes = found.designs.map((design) => sizeOf(found.search.objective, design));
        const shown = evenlySpread(sizes, Math.max(usuallyShown, options.verify));
        const chosen = evenlySpread(
          shown.map((place) => sizes[place]!),
          options.verify,
        ).map((i) => shown[i]!);
        const front =
          chosen.length === 0 || signal.aborted
            ? found
            : await Promise.race([verify(found, chosen, task), unverified(found, signal)]);
        const told = {
          ...{ brief, shown, timing, details: options.details === true },
          ...(file === undefined ? {} : { briefFile: file }),
          ...(options.out === undefined ? {} : { out: options.out }),
        };
        giveResult(front, () => frontText(front, told, terminalOf(streams.stdout)), options, output);
        refuseDisagreement(front);
      });
    });
}

/** The front, of several seeds where that is asked, and which outline each load asks for by itself. */
async function searched(
  brief: ResolvedBrief,
  { repeat, eachLoad }: FrontOptions,
  run: RunOptions,
): Promise<FrontDocument> {
  const front = await (repeat > 1 ? runRepeats(brief, repeat, run) : runFront(brief, run));
  if (!eachLoad || run.signal?.aborted) return front;
  const before = repeat * front.search.evaluations;
  const onProgress: RunOptions['onProgress'] = (now) =>
    run.onProgress?.({ ...now, evaluations: before + now.evaluations });
  return { ...front, eachLoad: await runEachLoad(brief, { ...run, onProgress }) };
}

function refuseChoices({ choices }: ResolvedBrief, { eachLoad }: FrontOptions): void {
  if (choices === undefined || !eachLoad) return;
  throw new InputError({
    path: '--each-load',
    expected: 'a brief that leaves nothing open beside the outline',
    received: `one with ${choices.length} choices`,
    remedy: 'leave --each-load out, or the section choices',
  });
}

/** The brief with what the options ask for. */
function withObjective(brief: ResolvedBrief, { enlarge, against }: FrontOptions): ResolvedBrief {
  const { size, cost } = brief.search.objective;
  const asked = {
    size: enlarge === undefined ? size : objectiveSizes[enlarge],
    cost: against === undefined ? cost : objectiveCosts[against],
  };
  return { ...brief, search: { ...brief.search, objective: asked } };
}

/** The front as it was found, once its verification is asked to end. */
function unverified(front: FrontDocument, signal: AbortSignal): Promise<FrontDocument> {
  return new Promise((resolve) => signal.addEventListener('abort', () => resolve(front), { once: true }));
}

async function verify(
  front: FrontDocument,
  places: readonly number[],
  { brief, options, output: { quiet, note }, streams: { stderr: stream } }: SearchTask,
): Promise<FrontDocument> {
  const progress = await startProgress({ label: 'mesh', total: places.length + 1, unit: 'channels', quiet, stream });
  try {
    return await verifyFront(brief, front, places, {
      workplace: openWorkplace(options.workers ?? availableParallelism(), note),
      onProgress: progress.update,
    });
  } finally {
    progress.stop();
  }
}

/** Whether the models disagree on the peak by which a design is chosen; a load that does not rule is marked in the table. */
function disagreesWhereItRules(design: DesignDocument): design is VerifiedDesign {
  return (
    isVerified(design) && !design.difference.holds && Math.abs(design.difference.cases[design.worstCase]!) > tolerated
  );
}

function refuseDisagreement({ designs, reference }: FrontDocument): void {
  const named = [
    ...designs.map((design, i) => [`design ${i + 1}`, design] as const),
    ['the reference', reference] as const,
  ];
  const messages = named.flatMap(([what, design]) =>
    disagreesWhereItRules(design) ? [describeDisagreement(what, design.difference, design)] : [],
  );
  if (messages.length > 0) throw new DisagreementError(messages.join('\n'));
}
