import { type BriefPath, InputError, overlaps, readPath, withValue, writePath } from '@lumenfront/core';
import { checkPath } from './known-path.js';
import { readValues } from './values.js';

/** Values to go through at one place of the brief. */
export interface Variation {
  readonly path: BriefPath;
  readonly values: readonly unknown[];
  /** Where it was written, for messages. */
  readonly place: string;
}

/** `cross`: every value with every other; `zip`: first values together, second values together. */
export type Combination = 'cross' | 'zip';

/** One combination: the data of its brief, and what differs in it by path. */
export interface Variant {
  readonly vary: Readonly<Record<string, unknown>>;
  readonly data: unknown;
}

const mostCases = 100_000;

/**
 * Reads one `PATH=VALUES`.
 *
 * @throws InputError if path or values cannot be read
 */
export async function readVariation(written: string): Promise<Variation> {
  const { path, rest } = readPath(written, '--vary');
  const place = `--vary ${writePath(path)}`;
  if (!rest.startsWith('='))
    throw new InputError({
      path: place,
      expected: 'PATH=VALUES',
      received: 'no values',
      remedy: `write, for example, ${writePath(path)}=2,3,4`,
    });
  return { path, place, values: await readValues(rest.slice(1), place) };
}

/**
 * Every combination of the values, in order: the last variation changes fastest.
 *
 * @param data of the brief; it need not be complete where a variation completes it
 * @throws InputError for a path that a brief does not have, one that is varied twice, lists of unequal length to be zipped, or too
 * many cases
 */
export async function combine(
  data: unknown,
  variations: readonly Variation[],
  combination: Combination,
): Promise<Variant[]> {
  if (variations.length === 0)
    throw new InputError({
      path: '--vary',
      expected: 'at least one value to vary',
      received: 'none',
      remedy: 'write, for example, --vary host.bendRadius=4..8, or name a --plan',
    });
  for (const [i, { path, place }] of variations.entries()) {
    await checkPath(path, data, place);
    const earlier = variations.slice(0, i).find((other) => overlaps(other.path, path));
    if (earlier !== undefined)
      throw new InputError({
        path: place,
        expected: 'a place in the brief that is not varied yet',
        received: `${writePath(path)} beside ${writePath(earlier.path)}`,
        remedy: 'vary each value once',
      });
  }
  const lengths = variations.map(({ values }) => values.length);
  const odd = lengths.findIndex((length) => length !== lengths[0]);
  if (combination === 'zip' && odd > 0)
    throw new InputError({
      path: variations[odd]!.place,
      expected: `${lengths[0]} values, as many as ${writePath(variations[0]!.path)} has`,
      received: `${lengths[odd]}`,
      remedy: 'give lists of equal length, or combine every value with every other (without --zip)',
    });
  const count = combination === 'zip' ? lengths[0]! : lengths.reduce((product, length) => product * length, 1);
  if (count > mostCases)
    throw new InputError({
      path: '--vary',
      expected: `at most ${mostCases} cases`,
      received: `${lengths.join(' x ')} = ${count}`,
      remedy: 'take wider steps, or vary fewer values at once',
    });
  return Array.from({ length: count }, (_, number) => variant(data, variations, combination, number));
}

function variant(data: unknown, variations: readonly Variation[], combination: Combination, number: number): Variant {
  const chosen: unknown[] = [];
  let rest = number;
  for (const { values } of [...variations].reverse()) {
    chosen.unshift(values[combination === 'zip' ? number : rest % values.length]);
    rest = Math.floor(rest / values.length);
  }
  return {
    vary: Object.fromEntries(variations.map(({ path }, i) => [writePath(path), chosen[i]])),
    data: variations.reduce<unknown>((made, { path }, i) => withValue(made, path, chosen[i]), data),
  };
}
