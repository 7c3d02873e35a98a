import type { Command } from 'commander';
import { createOutput, type Streams } from '../output.js';
import { runFront } from '../task/index.js';
import { frontText } from './front-text.js';
import { loadBrief } from './load-brief.js';
import { addSearchOptions, runTimed, type SearchOptions, writeResult } from './search-options.js';
import { terminalOf } from './terminal.js';

export function define(command: Command, streams: Streams): void {
  command.argument('[brief]', 'brief to search (without it: the starter brief)');
  addSearchOptions(command);
  command.action(async (file: string | undefined, options: SearchOptions) => {
    const output = createOutput(options, streams);
    const brief = await loadBrief(file, options);
    const [front, timing] = await runTimed(brief, options, output, streams.stderr, (run) => runFront(brief, run));
    writeResult(front, options, output);
    output.result(front, () => frontText(front, timing, terminalOf(streams.stdout)));
  });
}
