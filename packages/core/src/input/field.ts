import type { z } from 'zod/mini';
import { describeQuantity, type Quantity } from '../quantity.js';
import { nearestName, suggest } from './nearest-name.js';
import { readingsOf, rounded } from './readings.js';
import type { SchemaLibrary } from './schema-library.js';

/** The schema library, handed in by whoever loaded it: nothing here costs start-up time before a brief is read. */
export type Zod = SchemaLibrary;

/**
 * Every issue of a brief's schema carries two lines as its message: what was expected, and what to do.
 * `problems.ts` takes them apart.
 */
export const expectation = (expected: string, remedy: string): string => `${expected}\n${remedy}`;

function remedyForQuantity(input: unknown, options: Quantity): string {
  if (input === undefined) return 'add it';
  if (typeof input === 'string' && input.trim() !== '' && Number.isFinite(Number(input)))
    return 'write the number without quotes';
  if (typeof input === 'string' && /\d[\s/;]+[+-]?\d/.test(input)) return 'separate numbers by commas';
  if (typeof input === 'string')
    return `write a plain number${options.unit === '1' ? '' : `, its unit is ${options.unit}`}`;
  return `change it to a number in this range${otherUnit(input, options)}`;
}

/** What is too large was perhaps given in a smaller unit. */
function otherUnit(input: unknown, { unit, above, below, atLeast, atMost, integer }: Quantity): string {
  const most = atMost ?? below ?? Number.POSITIVE_INFINITY;
  if (typeof input !== 'number' || integer || !(Math.abs(input) > most)) return '';
  // A share in percent is more than one.
  if (unit === '1' && Math.abs(input) < 1) return '';
  const least = Math.max(above ?? atLeast ?? Number.NEGATIVE_INFINITY, -most);
  // A reading that is next to nothing was not meant either.
  const fits = (value: number) => value >= least && value <= most && Math.abs(value) > 2e-5 * most;
  const [reading] = readingsOf(input, unit, fits).filter(({ factor }) => factor < 0.1);
  return reading === undefined ? '' : `; given in ${reading.unit}? Then write ${rounded(input * reading.factor)}`;
}

/** A number with unit, range and meaning; the unit stands in the JSON Schema under `unit`. Give a default with `.default(…)`. */
export function quantity(z: Zod, options: Quantity): z.ZodMiniNumber {
  const error = (issue: { readonly input?: unknown }) =>
    expectation(describeQuantity(options), remedyForQuantity(issue.input, options));
  const { integer, above, below, atLeast, atMost } = options;
  const schema = z
    .number({ error })
    .check(
      ...(integer ? [z.int({ error })] : []),
      ...(above === undefined ? [] : [z.gt(above, { error })]),
      ...(below === undefined ? [] : [z.lt(below, { error })]),
      ...(atLeast === undefined ? [] : [z.gte(atLeast, { error })]),
      ...(atMost === undefined ? [] : [z.lte(atMost, { error })]),
    );
  return z.meta(schema, { description: withUnit(options), unit: options.unit });
}

/** Editors show the description: the unit stands there as well. */
const withUnit = ({ sentence, unit }: Quantity) => (unit === '1' ? sentence : `${sentence} Unit: ${unit}.`);

/** A mapping with fixed keys; unknown ones are refused and the nearest known one is suggested. */
export function section<Shape extends z.core.$ZodShape>(z: Zod, shape: Shape, sentence: string) {
  const keys = Object.keys(shape);
  return z.meta(
    z.strictObject(shape, {
      error: (issue) => {
        if (issue.code !== 'unrecognized_keys') {
          return expectation(`a mapping of ${keys.join(', ')}`, remedyForMapping(issue.input, keys));
        }
        return unknownKeys((issue as { keys: string[] }).keys, keys, 'one of the keys');
      },
    }),
    { description: sentence },
  );
}

function remedyForMapping(input: unknown, keys: readonly string[]): string {
  if (input === undefined) return 'add this section';
  if (typeof input === 'number' && keys.length === 1) return `write { ${keys[0]}: ${input} }`;
  return Array.isArray(input) ? 'write key: value, not a list' : 'indent its keys below it';
}

/** Message of an issue of unknown keys: one remedy for each of them. */
export const unknownKeys = (written: readonly string[], known: readonly string[], what: string): string =>
  expectation(`${what} ${known.join(', ')}`, written.map((key) => remedyForUnknownKey(key, known)).join('\n'));

function remedyForUnknownKey(key: string, known: readonly string[]): string {
  const near = nearestName(key, known);
  return near === undefined ? 'remove it' : suggest(near);
}

/** One word out of a list. */
export function choice<const Words extends readonly [string, ...string[]]>(z: Zod, words: Words, sentence: string) {
  return z.meta(
    z.enum(words, {
      error: (issue) => {
        const near = typeof issue.input === 'string' ? nearestName(issue.input, words) : undefined;
        return expectation(`one of ${words.join(', ')}`, near ? suggest(near) : 'choose one of these');
      },
    }),
    { description: sentence },
  );
}

/**
 * Letters and digits of the scripts that names are written in, as ranges: `\p{L}` in a JSON Schema would be refused by
 * validators whose expressions have no such classes.
 */
const letters = 'A-Za-z0-9\\u00c0-\\u04ff\\u3040-\\u9fff\\uac00-\\ud7a3';
const namePattern = new RegExp(`^[${letters}][${letters} _.+-]{0,59}$`);

/** No control characters, none that ends a line or turns the direction of writing: a title goes to terminals and reports. */
const linePattern = /^[ -~\u00a0-\u200d\u2010-\u2027\u202f-\u2065\u206a-\uffff]*$/;

/** A name that the user gives: letters, digits, blank, `_`, `-`, `.`, `+`, beginning with a letter or a digit. */
export function userName(z: Zod) {
  const error = () =>
    expectation(
      'a name of at most 60 letters, digits, blanks, _ - . or +, beginning with a letter or a digit',
      'rename it',
    );
  return z.string({ error }).check(z.regex(namePattern, { error }));
}

/** A free line of text. */
export function textLine(z: Zod, atMost: number, sentence: string) {
  const error = () =>
    expectation(
      `one line of at most ${atMost} characters`,
      'put the text in quotes, shorten it, or take control characters out',
    );
  return z.meta(z.string({ error }).check(z.maxLength(atMost, { error }), z.regex(linePattern, { error })), {
    description: sentence,
  });
}

/** A list of `atLeast` to `atMost` entries. */
export function list<Entry extends z.ZodMiniType>(
  z: Zod,
  entry: Entry,
  options: { readonly of: string; readonly atLeast: number; readonly atMost: number; readonly sentence: string },
) {
  const error = (issue: { readonly input?: unknown }) =>
    expectation(
      `a list of ${options.atLeast === options.atMost ? options.atLeast : `${options.atLeast} to ${options.atMost}`} ${options.of}`,
      Array.isArray(issue.input) ? 'add or remove entries' : 'write [first, second, …]',
    );
  return z.meta(
    z.array(entry, { error }).check(z.minLength(options.atLeast, { error }), z.maxLength(options.atMost, { error })),
    { description: options.sentence },
  );
}
