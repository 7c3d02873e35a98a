import type { InputProblem } from './errors.js';

/** A number that a user gives: unit, meaning and range. `above` and `below` exclude the limit itself. */
export interface Quantity {
  /** 'mm', 'MPa', '1', ... */
  readonly unit: string;
  /** What the number means, one sentence. */
  readonly sentence: string;
  readonly above?: number;
  readonly atLeast?: number;
  readonly below?: number;
  readonly atMost?: number;
  readonly integer?: boolean;
}

/** A quantity for every number of a record, whether it may be left out or not. */
export type Quantities<Of> = {
  readonly [Key in keyof Of as Of[Key] extends number | undefined ? Key : never]-?: Quantity;
};

/**
 * One problem for each number of `record` that lies outside its range; NaN lies outside every range.
 *
 * @param optional numbers that may be left out
 */
export function problemsOf<Of>(
  record: Of,
  quantities: Quantities<Of>,
  path: string,
  optional: readonly (keyof Of)[] = [],
): InputProblem[] {
  const problems: InputProblem[] = [];
  for (const [name, quantity] of Object.entries<Quantity>(quantities)) {
    const key = name as keyof Of;
    const value: unknown = record[key];
    if (value === undefined && optional.includes(key)) continue;
    if (typeof value === 'number' && isWithin(value, quantity)) continue;
    problems.push({
      path: `${path}.${name}`,
      expected: describeQuantity(quantity),
      received: String(value),
      remedy: 'change it to a number in this range',
    });
  }
  return problems;
}

function isWithin(value: number, { above, atLeast, below, atMost, integer }: Quantity): boolean {
  return (
    (above === undefined || value > above) &&
    (atLeast === undefined || value >= atLeast) &&
    (below === undefined || value < below) &&
    (atMost === undefined || value <= atMost) &&
    (!integer || Number.isSafeInteger(value))
  );
}

/** In words: `a number above 0 and at most 1000 mm`. */
export function describeQuantity({ unit, above, atLeast, below, atMost, integer }: Quantity): string {
  const limits = [
    above !== undefined ? `above ${above}` : atLeast !== undefined ? `at least ${atLeast}` : '',
    below !== undefined ? `below ${below}` : atMost !== undefined ? `at most ${atMost}` : '',
  ].filter(Boolean);
  return `${integer ? 'a whole number' : 'a number'} ${limits.join(' and ')}${unit === '1' ? '' : ` ${unit}`}`;
}
