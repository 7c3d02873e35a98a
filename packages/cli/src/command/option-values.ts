import { InputError } from '@lumenfront/core';

/**
 * A parser for a numeric option: `parseFloat` would take `12abc` for 12 and `abc` for NaN.
 *
 * @throws InputError naming the option, from the parser
 */
export function numberOption(
  option: string,
  range: { readonly unit: string; readonly above?: number; readonly atLeast?: number; readonly integer?: boolean },
): (text: string) => number {
  const limit =
    range.above !== undefined
      ? ` above ${range.above}`
      : range.atLeast !== undefined
        ? ` of at least ${range.atLeast}`
        : '';
  const expected = `${range.integer ? 'a whole number' : 'a number'}${limit}${range.unit === '1' ? '' : ` ${range.unit}`}`;
  return (text) => {
    const value = text.trim() === '' ? Number.NaN : Number(text);
    const sound =
      (range.integer ? Number.isSafeInteger(value) : Number.isFinite(value)) &&
      (range.above === undefined || value > range.above) &&
      (range.atLeast === undefined || value >= range.atLeast);
    if (!sound)
      throw new InputError({
        path: option,
        expected,
        received: JSON.stringify(text.slice(0, 60)),
        remedy: `write, for example, ${option} ${exampleIn(range)}`,
      });
    return value;
  };
}

const exampleIn = (range: { readonly above?: number; readonly atLeast?: number }) =>
  Math.max(1, Math.ceil((range.above ?? 0) + 1), range.atLeast ?? 1);
