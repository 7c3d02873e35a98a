import { readingsOf, rounded } from './readings.js';

/** A number that may be given but hardly can be meant. */
export interface Doubt {
  /** Of what the number belongs to: `materials.resin`. */
  readonly of: string;
  readonly key: string;
  readonly value: number;
  readonly unit: string;
  readonly usual: readonly [from: number, to: number];
  /** What it probably was meant to be, and why. */
  readonly meant?: { readonly value: number; readonly because: string };
}

/**
 * Whether a number lies outside what is usual; and what it would be in the units that are mistaken for its own (those named after it in
 * `units`, if any are), or with the other sign.
 */
export function doubtsAbout(
  of: string,
  key: string,
  value: number,
  units: string | readonly [unit: string, ...mistaken: string[]],
  usual: readonly [from: number, to: number],
): Doubt[] {
  const [unit, ...mistaken] = typeof units === 'string' ? [units] : units;
  const [from, to] = usual;
  const fits = (number: number) => number >= from && number <= to;
  if (fits(value)) return [];
  const [reading] = readingsOf(value, unit, fits).filter((one) => mistaken.length === 0 || mistaken.includes(one.unit));
  const meant =
    reading !== undefined
      ? { value: value * reading.factor, because: `given in ${reading.unit}` }
      : fits(-value)
        ? { value: -value, because: 'with its sign lost' }
        : undefined;
  return [{ of, key, value, unit, usual, ...(meant === undefined ? {} : { meant }) }];
}

/** The usual sizes of a number of either sign, on the side of the one given. */
export function signed(value: number, least: number, most: number): [number, number] {
  return value < 0 ? [-most, -least] : [least, most];
}

/** One sentence for one mistake: numbers of one thing that all were meant in the same other unit are told together. */
export function tellDoubts(doubts: readonly Doubt[]): string[] {
  const groups = new Map<string, Doubt[]>();
  for (const doubt of doubts) {
    const key = JSON.stringify([doubt.of, doubt.meant?.because ?? doubt.key]);
    groups.set(key, [...(groups.get(key) ?? []), doubt]);
  }
  return [...groups.values()].map((group) => {
    const [{ of, key, value, unit, usual, meant }] = group as [Doubt];
    if (group.length === 1)
      return `${of}.${key}: ${rounded(value)}${unitOf(unit)} is outside what is usual, ${rounded(usual[0])} to ${rounded(usual[1])}; ${
        meant === undefined ? 'check it' : `${meant.because}? Then write ${rounded(meant.value)}`
      }`;
    const given = listed(group.map((one) => `${one.key} ${rounded(one.value)}`));
    const corrected = listed(group.map((one) => rounded(one.meant!.value)));
    return `${of}: ${given}${unitOf(unit)} are outside what is usual; ${meant!.because}? Then write ${corrected}`;
  });
}

const unitOf = (unit: string) => (unit === '1' ? '' : ` ${unit}`);

/** Of many, the first few and how many more. */
export function listed(words: readonly string[]): string {
  if (words.length > 6) return `${words.slice(0, 5).join(', ')} and ${words.length - 5} more`;
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
