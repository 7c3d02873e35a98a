import type { z } from 'zod/mini';
import { expectation, type Zod } from '../input/index.js';

/** What is data throughout: no result is written to once it is made. */
export type Immutable<T> = T extends object ? { readonly [Key in keyof T]: Immutable<T[Key]> } : T;

/** The type that a schema stands for. */
export type Of<Build extends (z: Zod) => z.ZodMiniType> = Immutable<z.output<ReturnType<Build>>>;

/** Results are written by commands, not by hand: there is one thing to do about a damaged one. */
const remedy = 'give the file as the command wrote it with --json or --out, or run the command again';
export const refuse = (expected: string) => () => expectation(expected, remedy);

const inUnit = (unit: string) => (unit === '1' ? '' : ` in ${unit}`);
const described = (sentence: string, unit: string) => ({
  description: unit === '1' ? sentence : `${sentence} Unit: ${unit}.`,
  unit,
});

/** A number; its unit stands in the description and, for programs, under `unit`. */
export function figure(z: Zod, unit: string, sentence: string) {
  return z.meta(z.number({ error: refuse(`a number${inUnit(unit)}`) }), described(sentence, unit));
}

/** A number without bound: where it is infinite the file has null, since JSON knows no infinity, or leaves it out. */
export function unbounded(z: Zod, unit: string, sentence: string) {
  return z.meta(
    z.transform(
      z.nullish(z.number({ error: refuse(`a number${inUnit(unit)}, or null for one without bound`) })),
      (value): number => value ?? Number.POSITIVE_INFINITY,
    ),
    described(`${sentence} Null or left out: without bound.`, unit),
  );
}

/** A number that is not always there: null in a file where there is none, NaN in memory. */
export function undefinable(z: Zod, unit: string, sentence: string) {
  return z.meta(
    z.transform(
      z.nullable(z.number({ error: refuse(`a number${inUnit(unit)}, or null for none`) })),
      (value): number => value ?? Number.NaN,
    ),
    described(`${sentence} Null: there is none.`, unit),
  );
}

export function text(z: Zod, sentence: string) {
  return z.meta(z.string({ error: refuse('a text') }), { description: sentence });
}

export function flag(z: Zod, sentence: string) {
  return z.meta(z.boolean({ error: refuse('true or false') }), { description: sentence });
}

/** One word out of a list. */
export function word<const Words extends readonly [string, ...string[]]>(z: Zod, words: Words, sentence: string) {
  return z.meta(z.enum(words, { error: refuse(`one of ${words.join(', ')}`) }), { description: sentence });
}

/** `[x, y]` in mm. */
export function point(z: Zod, sentence: string) {
  const coordinate = z.number({ error: refuse('a number in mm') });
  return z.meta(z.tuple([coordinate, coordinate], { error: refuse('[x, y] in mm') }), {
    description: `${sentence} [x, y]. Unit: mm.`,
    unit: 'mm',
  });
}

/** The same, with null for both where there is no such place: NaN in memory. */
export function placeOrNone(z: Zod, sentence: string) {
  const coordinate = z.transform(
    z.nullable(z.number({ error: refuse('a number in mm, or null for none') })),
    (value): number => value ?? Number.NaN,
  );
  return z.meta(z.tuple([coordinate, coordinate], { error: refuse('[x, y] in mm') }), {
    description: `${sentence} [x, y]; nulls: nowhere. Unit: mm.`,
    unit: 'mm',
  });
}

/** Fixed keys; those that are not known are left out when it is read: results gain keys. */
export function group<Shape extends z.core.$ZodShape>(z: Zod, shape: Shape, sentence: string) {
  return z.meta(z.object(shape, { error: refuse(`a mapping of ${Object.keys(shape).join(', ')}`) }), {
    description: sentence,
  });
}

/** The same for every name that the brief gives. */
export function byName<Entry extends z.ZodMiniType>(z: Zod, entry: Entry, sentence: string) {
  return z.meta(z.record(z.string(), entry, { error: refuse('a mapping by name') }), { description: sentence });
}

export function listOf<Entry extends z.ZodMiniType>(z: Zod, entry: Entry, sentence: string) {
  return z.meta(z.array(entry, { error: refuse('a list') }), { description: sentence });
}
