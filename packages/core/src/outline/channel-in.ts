import { InputError } from '../errors.js';
import type { OutlineData } from './family.js';

type Content = Readonly<Record<string, unknown>>;

const isContent = (data: unknown): data is Content => typeof data === 'object' && data !== null && !Array.isArray(data);

/** What is asked of the content of a file: its name and the number of a design, from 1, for messages with what that is called. */
export interface ChannelChoice {
  readonly file: string;
  readonly design?: number | undefined;
  readonly named: string;
}

/**
 * The channel that the content of a file holds: an outline by itself, the design of a pick, or one design of a front. What the outline itself
 * must be is checked where it is placed.
 *
 * @throws InputError if there is none
 */
export function channelIn(
  content: unknown,
  choice: ChannelChoice,
): { readonly outline: OutlineData; readonly of: Readonly<Record<string, unknown>> } {
  const of = chosenIn(content, choice);
  const { family, parameters, points }: Content = isContent(of) ? of : {};
  if (typeof family === 'string' && isContent(parameters))
    return { outline: { family, parameters: parameters as Readonly<Record<string, number>> }, of };
  if (Array.isArray(points)) return { outline: { points }, of };
  throw new InputError({
    path: choice.file,
    expected: '{ "family": …, "parameters": { … } } or { "points": [[x, y], …] }, or the result of a pick or a front',
    received: String(JSON.stringify(of)).slice(0, 60),
    remedy: 'write the channel in one of these forms',
  });
}

function chosenIn(content: unknown, { file, design, named }: ChannelChoice): Content {
  const refuse = (expected: string, received: string, remedy: string) =>
    new InputError({ path: file, expected, received, remedy });
  const { designs, design: picked } = isContent(content) ? content : {};
  if (!Array.isArray(designs)) {
    if (design !== undefined) throw refuse('a front, with several designs', 'one channel', `leave ${named} out`);
    return (isContent(picked) ? picked : content) as Content;
  }
  const count = designs.length;
  if (design === undefined || design > count)
    throw refuse(
      count === 0 ? 'a front with a design' : `a design of this front, ${named} 1 to ${count}`,
      design === undefined ? `no ${named}` : `${named} ${design}`,
      count === 0 ? 'search again with a brief that can be met' : 'name one of its designs',
    );
  return designs[design - 1];
}
