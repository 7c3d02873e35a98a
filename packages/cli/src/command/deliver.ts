import { outlineOf, wholeRoom } from '@lumenfront/core';
import { runDelivery } from '@lumenfront/optimizer';
import type { Command } from 'commander';
import { createOutput, type Streams } from '../output.js';
import { openWorkplace } from '../workplace.js';
import { readChannelFile } from './channel-file.js';
import { addChannelOptions, addOutOptions, type ChannelOptions } from './common-options.js';
import { deliveryText } from './deliver-text.js';
import { loadBrief } from './load-brief.js';
import { giveResult, refuseTarget } from './search-options.js';
import { terminalOf } from './terminal.js';

export function define(command: Command, streams: Streams): void {
  command.argument('[brief]', 'brief of the joint (without it: the starter brief)');
  addChannelOptions(command);
  addOutOptions(command);
  command
    .addHelpText(
      'after',
      '\nThe JSON leaves out what has no bound: a time that never comes, a limit that is not there.',
    )
    .action(async (file: string | undefined, options: ChannelOptions) => {
      const output = createOutput(options, streams);
      refuseTarget(options);
      const { brief, outline: given } = await readChannelFile(await loadBrief(file), options, output);
      const outline = outlineOf(given, wholeRoom(brief));
      const delivery = runDelivery(brief, outline, openWorkplace(1, output.note));
      const text = () => deliveryText(delivery, terminalOf(streams.stdout).width);
      giveResult(withoutUnbounded(delivery) as object, text, options, output);
    });
}

/** JSON has no infinity and would write null. */
function withoutUnbounded(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutUnbounded);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, part]) => part !== Number.POSITIVE_INFINITY)
      .map(([key, part]) => [key, withoutUnbounded(part)]),
  );
}
