import { outlineOf } from '@lumenfront/core';
import { runCheck } from '@lumenfront/optimizer';
import type { Command } from 'commander';
import { DisagreementError } from '../failure.js';
import { createOutput, type Streams } from '../output.js';
import { openWorkplace } from '../workplace.js';
import { readChannelFile } from './channel-file.js';
import { checkText } from './check-text.js';
import type { CommonOptions } from './common-options.js';
import { describeDisagreement } from './describe-disagreement.js';
import { wholeRoom } from './given-outline.js';
import { loadBrief } from './load-brief.js';
import { numberOption } from './option-values.js';
import { refuseOtherBrief } from './result-file.js';
import { terminalOf } from './terminal.js';

interface CheckOptions extends CommonOptions {
  readonly channel: string;
  readonly design?: number;
  readonly fast?: boolean;
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
    .option('--fast', 'only the fast model, without the independent mesh')
    .option('--force', 'go on with a channel that was found for another brief')
    .action(async (file: string | undefined, options: CheckOptions) => {
      const output = createOutput(options, streams);
      const brief = await loadBrief(file, options);
      const channel = await readChannelFile(options.channel, options.design);
      refuseOtherBrief(options.channel, channel.brief, brief, options, output);
      const outline = outlineOf(channel.outline, wholeRoom(brief));
      const workplace = openWorkplace(1, output.note);
      const check = await runCheck(brief, outline, { mesh: options.fast !== true, workplace });
      output.result(check, () => checkText(check, terminalOf(streams.stdout)));
      if (check.difference?.holds === false)
        throw new DisagreementError(describeDisagreement('the channel', check.difference, check));
    });
}
