import {
  type BriefMark,
  type ChoiceValues,
  type DesignDocument,
  InputError,
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
  if (resultKindOf(content) !== undefined) return chosenDesign(content, path, design);
  if (design !== undefined) throw refuse(path, 'a front, with several designs', 'one channel', 'leave --design out');
  if (isJsonObject(content)) {
    const { family, parameters, points, choice } = content;
    const chosen = isJsonObject(choice) ? { choice } : {};
    if (typeof family === 'string' && isJsonObject(parameters))
      return { outline: { family, parameters: parameters as Readonly<Record<string, number>> }, ...chosen };
    if (Array.isArray(points)) return { outline: { points }, ...chosen };
  }
  throw refuse(
    path,
    '{ "family": …, "parameters": { … } } or { "points": [[x, y], …] }',
    JSON.stringify(content).slice(0, 60),
    'write the channel in one of these forms',
  );
}

async function chosenDesign(content: unknown, path: string, design: number | undefined): Promise<GivenChannel> {
  const { kind, result } = await readResult(content, ['front', 'pick', 'scatter-front'], path);
  const { brief } = result;
  const mark = brief === undefined ? {} : { brief };
  if (kind === 'pick') {
    if (design !== undefined) throw refuse(path, 'a front, with several designs', 'one channel', 'leave --design out');
    return { outline: result.design, ...mark, ...chosenIn(result.design) };
  }
  const count = result.designs.length;
  if (design === undefined || design > count)
    throw refuse(
      path,
      count === 0 ? 'a front with a design' : `a design of this front, --design 1 to ${count}`,
      design === undefined ? 'no --design' : `--design ${design}`,
      count === 0 ? 'search again with a brief that can be met' : 'name one of its designs',
    );
  const outline = result.designs[design - 1]!;
  return { outline, ...mark, ...('choice' in outline ? chosenIn(outline) : {}) };
}

const chosenIn = ({ choice }: Pick<DesignDocument, 'choice'>) => (choice === undefined ? {} : { choice });

function refuse(path: string, expected: string, received: string, remedy: string): InputError {
  return new InputError({ path, expected, received, remedy });
}
