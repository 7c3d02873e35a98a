import {
  type BriefMark,
  type ChoiceValues,
  channelIn,
  type OutlineData,
  readResult,
  resultKindOf,
} from '@lumenfront/core';
import { isJsonObject, readJsonFile } from '../files/index.js';

/** A channel from a file, and the brief that it was found for, where the file says so. */
export interface GivenChannel {
  readonly outline: OutlineData;
  readonly brief?: BriefMark;
  /** Of what the brief leaves open. */
  readonly choice?: ChoiceValues;
}

/**
 * The outline that a channel file holds: a family with parameters, or points. Results that commands write with `--json`
 * are channel files as well: the design of a pick, and one design of a front.
 *
 * @param design which design of a front, from 1
 * @throws InputError if the file holds no outline; what the outline itself must be is checked where it is placed
 */
export async function readChannelFile(path: string, design?: number): Promise<GivenChannel> {
  const content = readJsonFile(path, 'a channel');
  const result =
    resultKindOf(content) === undefined
      ? undefined
      : (await readResult(content, ['front', 'pick', 'scatter-front'], path)).result;
  const { outline, of } = channelIn(result ?? content, { file: path, design, named: '--design' });
  const { choice } = of;
  return {
    outline,
    ...(result?.brief === undefined ? {} : { brief: result.brief }),
    ...(isJsonObject(choice) ? { choice: choice as ChoiceValues } : {}),
  };
}
