import { outlineOf, wholeRoom } from '@lumenfront/core';
import { runCheck } from '@lumenfront/optimizer';
import type { Command } from 'commander';
import { DisagreementError } from '../failure.js';
import { createOutput, type Streams } from '../output.js';
import { openWorkplace } from '../workplace.js';
import { readChannelFile } from './channel-file.js';
import { checkText } from './check-text.js';
import { addChannelOptions, addOutOptions, type ChannelOptions } from './common-options.js';
import { describeDisagreement } from './describe-disagreement.js';
import { loadBrief } from './load-brief.js';
import { giveResult, refuseTarget } from './search-options.js';
import { terminalOf } from './terminal.js';

interface CheckOptions extends ChannelOptions {
  readonly fast?: boolean;
}

export function define(command: Command, streams: Streams): void {
  command.argument('[brief]', 'brief of the joint (without it: the starter brief)');
  addChannelOptions(command);
  addOutOptions(command);
  command
    .option('--fast', 'only the fast model, without the independent mesh')
    .action(async (file: string | undefined, options: CheckOptions) => {
      const output = createOutput(options, streams);
      refuseTarget(options);
      const { brief, outline: given } = await readChannelFile(await loadBrief(file), options, output);
      const outline = outlineOf(given, wholeRoom(brief));
      const workplace = openWorkplace(1, output.note);
      const check = await runCheck(brief, outline, { mesh: options.fast !== true, workplace });
      giveResult(check, () => checkText(check, terminalOf(streams.stdout)), options, output);
      if (check.difference?.holds === false)
        throw new DisagreementError(describeDisagreement('the channel', check.difference, check));
    });
}
