import { type Curve, InputError, outlineOf, type ResolvedBrief, wholeRoom } from '@lumenfront/core';
import { referenceCurve, runCheck } from '@lumenfront/optimizer';
import type { Command } from 'commander';
import { DisagreementError } from '../failure.js';
import { createOutput, type Output, type Streams } from '../output.js';
import { openWorkplace } from '../workplace.js';
import { readChannelFile } from './channel-file.js';
import { checkText } from './check-text.js';
import { chosenBrief } from './chosen-brief.js';
import { addChannelOrReference, addOutOptions, type ChannelOptions } from './common-options.js';
import { describeDisagreement } from './describe-disagreement.js';
import { loadBrief } from './load-brief.js';
import { giveResult, refuseTarget } from './search-options.js';
import { terminalOf } from './terminal.js';

interface CheckOptions extends Omit<ChannelOptions, 'channel'> {
  readonly channel?: string;
  readonly fast?: boolean;
}

export function define(command: Command, streams: Streams): void {
  command.argument('[brief]', 'brief of the joint (without it: the starter brief)');
  addChannelOrReference(command);
  addOutOptions(command);
  command
    .option('--fast', 'only the fast model, without the independent mesh')
    .action(async (file: string | undefined, options: CheckOptions) => {
      const output = createOutput(options, streams);
      refuseTarget(options);
      const { brief, outline } = await checkedChannel(await loadBrief(file), options, output);
      const workplace = openWorkplace(1, output.note);
      const check = await runCheck(brief, outline, { mesh: options.fast !== true, workplace });
      giveResult(check, () => checkText(check, terminalOf(streams.stdout)), options, output);
      if (check.difference?.holds === false)
        throw new DisagreementError(describeDisagreement('the channel', check.difference, check));
    });
}

/** The channel that is given, with the brief that it belongs to, or the reference of the one that is asked for. */
async function checkedChannel(
  asked: ResolvedBrief,
  options: CheckOptions,
  output: Output,
): Promise<{ readonly brief: ResolvedBrief; readonly outline: Curve }> {
  const { channel } = options;
  if (channel !== undefined) {
    const { brief, outline } = await readChannelFile(asked, { ...options, channel }, output);
    return { brief, outline: outlineOf(outline, wholeRoom(brief)) };
  }
  if (options.design !== undefined)
    throw new InputError({
      path: '--design',
      expected: 'the front that it is a design of as well',
      received: 'no --channel',
      remedy: 'name what front wrote: --channel front.json',
    });
  const brief = chosenBrief(asked, undefined, '--channel');
  output.note('no --channel: checks the reference of the brief');
  return { brief, outline: referenceCurve(brief.channel.reference) };
}
