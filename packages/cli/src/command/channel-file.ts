import {
  type ChoiceValues,
  channelIn,
  type OutlineData,
  type ResolvedBrief,
  readResult,
  resultKindOf,
} from '@lumenfront/core';
import { isJsonObject, readJsonFile } from '../files/index.js';
import type { Output } from '../output.js';
import { chosenBrief } from './chosen-brief.js';
import type { ChannelOptions } from './common-options.js';
import { refuseOtherBrief } from './result-file.js';

/** A channel from a file, and the brief that it belongs to, with what that leaves open as the file says. */
interface GivenChannel {
  readonly outline: OutlineData;
  readonly brief: ResolvedBrief;
}

/**
 * The outline that a channel file holds: a family with parameters, or points. Results that commands write with `--json`
 * are channel files as well: the design of a pick, and one design of a front (`design`, from 1).
 *
 * @param asked the brief that is given beside the channel
 * @throws InputError if the file holds no outline, or one that was found for another brief; what the outline itself must be is checked where it is placed
 */
export async function readChannelFile(
  asked: ResolvedBrief,
  options: Pick<ChannelOptions, 'channel' | 'design' | 'force'>,
  output: Pick<Output, 'note'>,
): Promise<GivenChannel> {
  const { channel: file, design } = options;
  const content = readJsonFile(file, 'a channel');
  const result =
    resultKindOf(content) === undefined
      ? undefined
      : (await readResult(content, ['front', 'pick', 'scatter-front'], file)).result;
  const { outline, of } = channelIn(result ?? content, { file, design, named: '--design' });
  refuseOtherBrief(file, result?.brief, asked, options, output);
  const choice = isJsonObject(of.choice) ? (of.choice as ChoiceValues) : undefined;
  return { outline, brief: chosenBrief(asked, choice, file) };
}
