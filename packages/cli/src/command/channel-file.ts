import { InputError, type OutlineData } from '@lumenfront/core';
import { isJsonObject, type JsonObject, readJsonFile } from '../files/index.js';

/**
 * The outline that a channel file holds: a family with parameters, or points. Results that commands print with `--json`
 * are channel files as well: the design of a pick, and one design of a front.
 *
 * @param design which design of a front, from 1
 * @throws InputError if the file holds no outline; what the outline itself must be is checked where it is placed
 */
export function readChannelFile(path: string, design?: number): OutlineData {
  const content = readJsonFile(path, 'a channel');
  const channel = isJsonObject(content) ? chosenDesign(content, path, design) : content;
  if (isJsonObject(channel)) {
    const { family, parameters, points } = channel;
    if (typeof family === 'string' && isJsonObject(parameters))
      return { family, parameters: parameters as Readonly<Record<string, number>> };
    if (Array.isArray(points)) return { points };
  }
  throw refuse(
    path,
    '{ "family": …, "parameters": { … } } or { "points": [[x, y], …] }',
    JSON.stringify(channel).slice(0, 60),
    'write the channel in one of these forms',
  );
}

function chosenDesign(content: JsonObject, path: string, design: number | undefined): unknown {
  if (!Array.isArray(content.designs)) {
    if (design !== undefined) throw refuse(path, 'a front, with several designs', 'one channel', 'leave --design out');
    return isJsonObject(content.design) ? content.design : content;
  }
  const count = content.designs.length;
  if (design === undefined || design > count)
    throw refuse(
      path,
      count === 0 ? 'a front with a design' : `a design of this front, --design 1 to ${count}`,
      design === undefined ? 'no --design' : `--design ${design}`,
      count === 0 ? 'search again with a brief that can be met' : 'name one of its designs',
    );
  return content.designs[design - 1];
}

function refuse(path: string, expected: string, received: string, remedy: string): InputError {
  return new InputError({ path, expected, received, remedy });
}
