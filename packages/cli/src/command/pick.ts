import { runPick } from '@lumenfront/optimizer';
import type { Command } from 'commander';
import { createOutput, type Streams } from '../output.js';
import { loadBrief } from './load-brief.js';
import { numberOption } from './option-values.js';
import { pickText } from './pick-text.js';
import { addSearchOptions, giveResult, runTimed, type SearchOptions, untilStopped } from './search-options.js';
import { terminalOf } from './terminal.js';

interface PickOptions extends SearchOptions {
  readonly allow?: number;
}

export function define(command: Command, streams: Streams): void {
  command.argument('[brief]', 'brief to search (without it: the starter brief)');
  command.option(
    '--allow <MPa>',
    "allowed peak stress at the edge, instead of the brief's",
    numberOption('--allow', { unit: 'MPa', above: 0 }),
  );
  addSearchOptions(command);
  command.action(async (file: string | undefined, options: PickOptions) => {
    const output = createOutput(options, streams);
    const given = await loadBrief(file, options);
    const brief = options.allow === undefined ? given : { ...given, allow: options.allow };
    await untilStopped(async (signal) => {
      const [pick, timing] = await runTimed({ brief, options, output, streams, signal }, (run) => runPick(brief, run));
      giveResult(pick, () => pickText(pick, timing, terminalOf(streams.stdout)), options, output);
    });
  });
}
