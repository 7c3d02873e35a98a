import { outlineOf } from '@lumenfront/core';
import { runDelivery } from '@lumenfront/optimizer';
import type { Command } from 'commander';
import { createOutput, type Streams } from '../output.js';
import { openWorkplace } from '../workplace.js';
import { readChannelFile } from './channel-file.js';
import type { CommonOptions } from './common-options.js';
import { deliveryText } from './deliver-text.js';
import { wholeRoom } from './given-outline.js';
import { loadBrief } from './load-brief.js';
import { numberOption } from './option-values.js';
import { refuseOtherBrief } from './result-file.js';
import { terminalOf } from './terminal.js';

interface DeliverOptions extends CommonOptions {
  readonly channel: string;
  readonly design?: number;
  readonly force?: boolean;
}

export function define(command: Command, streams: Streams): void {
  command
    .argument('[brief]', 'brief of the joint (without it: the starter brief)')
    .requiredOption('--channel <file>', 'the channel: a channel file, or what pick or front wrote with --json')
    .option(
      '--design <number>',
      'which design of a front, from 1',
      numberOption('--design', { unit: '1', atLeast: 1, integer: true }),
    )
    .option('--force', 'go on with a channel that was found for another brief')
    .addHelpText(
      'after',
      '\nThe JSON leaves out what has no bound: a time that never comes, a limit that is not there.',
    )
    .action(async (file: string | undefined, options: DeliverOptions) => {
      const output = createOutput(options, streams);
      const brief = await loadBrief(file, options);
      const channel = await readChannelFile(options.channel, options.design);
      refuseOtherBrief(options.channel, channel.brief, brief, options, output);
      const outline = outlineOf(channel.outline, wholeRoom(brief));
      const delivery = runDelivery(brief, outline, openWorkplace(1, output.note));
      output.result(withoutUnbounded(delivery), () => deliveryText(delivery, terminalOf(streams.stdout).width));
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
