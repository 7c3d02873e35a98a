import { InputError } from '@lumenfront/core';
import { judgeMade, refuseChoices, runMadePick, runPick, runPickRepeats } from '@lumenfront/optimizer';
import type { Command } from 'commander';
import { createOutput, type Streams } from '../output.js';
import { openWorkplace } from '../workplace.js';
import { chosenBrief } from './chosen-brief.js';
import { loadBrief } from './load-brief.js';
import { numberOption } from './option-values.js';
import { pickText } from './pick-text.js';
import {
  addSearchOptions,
  giveResult,
  runTimed,
  type SearchOptions,
  searchesOf,
  untilStopped,
} from './search-options.js';
import { terminalOf } from './terminal.js';

interface PickOptions extends SearchOptions {
  readonly allow?: number;
  readonly repeat: number;
  readonly made?: boolean;
}

export function define(command: Command, streams: Streams): void {
  command
    .argument('[brief]', 'brief to search (without it: the starter brief)')
    .option(
      '--allow <MPa>',
      "allowed peak stress at the edge, instead of the brief's",
      numberOption('--allow', { unit: 'MPa', above: 0 }),
    )
    .option(
      '--repeat <number>',
      "searches, each with a seed of its own from the brief's on: the largest of their picks, and what chance does to it",
      numberOption('--repeat', { unit: '1', atLeast: 1, integer: true }),
      1,
    )
    .option(
      '--made',
      'the largest channel of which 95 % (scatter.quantile) of made ones stay within the allowed peak: up to four searches',
    );
  addSearchOptions(command);
  command.action(async (file: string | undefined, options: PickOptions) => {
    const output = createOutput(options, streams);
    if (options.made && options.repeat > 1)
      throw new InputError({
        path: '--made',
        expected: 'either --made or --repeat',
        received: 'both',
        remedy: 'leave one of them out',
      });
    const given = await loadBrief(file, options);
    const brief = options.allow === undefined ? given : { ...given, allow: options.allow };
    if (options.made) refuseChoices(brief, 'pick without --made first, then give the brief with that choice alone');
    await untilStopped(async (signal) => {
      const task = { brief, options, output, streams, signal };
      const [found, timing] = await runTimed(
        task,
        (run) => {
          if (options.made) return runMadePick(brief, run);
          return options.repeat > 1 ? runPickRepeats(brief, options.repeat, run) : runPick(brief, run);
        },
        options.repeat * searchesOf(brief),
      );
      const own = chosenBrief(brief, found.design.choice, 'pick');
      // A search that was stopped is to end now, not after a study of scatter.
      const pick =
        found.made !== undefined || signal.aborted
          ? found
          : {
              ...found,
              made: judgeMade(
                own,
                found,
                openWorkplace(1, () => {}),
              ),
            };
      const told = {
        ...{ brief: own, timing, details: options.details === true, made: options.made === true },
        ...(file === undefined ? {} : { briefFile: file }),
        ...(options.out === undefined ? {} : { out: options.out }),
      };
      giveResult(pick, () => pickText(pick, told, terminalOf(streams.stdout)), options, output);
    });
  });
}
