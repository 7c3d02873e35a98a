import type { InputProblem } from '../errors.js';

/** A number that a user gives: unit, meaning and range. `above` and `below` exclude the limit itself. */
export interface Quantity {
  readonly unit: string;
  /** What the number means, one sentence. */
  readonly sentence: string;
  readonly above?: number;
  readonly atLeast?: number;
  readonly below?: number;
  readonly atMost?: number;
}

/** A quantity for every number of a record. */
export type Quantities<Of> = { readonly [Key in keyof Of as Of[Key] extends number ? Key : never]-?: Quantity };

/** One problem for each number of `record` that lies outside its range; NaN lies outside every range. */
export function problemsOf<Of>(record: Of, quantities: Quantities<Of>, path: string): InputProblem[] {
  const problems: InputProblem[] = [];
  for (const [key, quantity] of Object.entries<Quantity>(quantities)) {
    const value: unknown = record[key as keyof Of];
    if (typeof value === 'number' && isWithin(value, quantity)) continue;
    problems.push({
      path: `${path}.${key}`,
      expected: describe(quantity),
      received: String(value),
      remedy: 'change it to a number in this range',
    });
  }
  return problems;
}

function isWithin(value: number, { above, atLeast, below, atMost }: Quantity): boolean {
  return (
    (above === undefined || value > above) &&
    (atLeast === undefined || value >= atLeast) &&
    (below === undefined || value < below) &&
    (atMost === undefined || value <= atMost)
  );
}

/** In words: `a number above 0 and at most 1000 mPa s`. */
function describe({ unit, above, atLeast, below, atMost }: Quantity): string {
  const limits = [
    above !== undefined ? `above ${above}` : atLeast !== undefined ? `at least ${atLeast}` : '',
    below !== undefined ? `below ${below}` : atMost !== undefined ? `at most ${atMost}` : '',
  ].filter(Boolean);
  return `a number ${limits.join(' and ')}${unit === '1' ? '' : ` ${unit}`}`;
}
