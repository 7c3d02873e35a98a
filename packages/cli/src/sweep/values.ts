import { InputError, readBriefText } from '@lumenfront/core';

/** More values than this for one path are a slip of the pen. */
const mostValues = 10_000;

const number = String.raw`[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?`;
const range = new RegExp(`^(${number})\\s*\\.\\.\\s*(${number})(?:\\s+step\\s+(${number}))?$`);

const remedy = 'write, for example, 2,3,4 or 1..3 step 0.5 or clamped,simple or [45,-45],[0,90]';

/**
 * Reads the values of a path as a command line gives them: the entries of a YAML flow list without its outer brackets, where an
 * entry `first..last step width` (step 1 where none is given) stands for a range.
 *
 * @param place where they were written, for messages: `--vary host.bendRadius`
 * @throws InputError if there is no value, or no sense in them
 */
export async function readValues(written: string, place: string): Promise<readonly unknown[]> {
  let data: unknown;
  try {
    ({ data } = await readBriefText(`[${written}]`));
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    throw refuse(place, 'values separated by commas', JSON.stringify(written.slice(0, 60)));
  }
  return expandValues(data as readonly unknown[], place);
}

/**
 * Values with their ranges written out.
 *
 * @throws InputError if there is no value, or if a range has no sense
 */
export function expandValues(entries: readonly unknown[], place: string): readonly unknown[] {
  const values = entries.flatMap((entry) => (typeof entry === 'string' ? expandRange(entry, place) : [entry]));
  if (values.length === 0) throw refuse(place, 'at least one value', 'none');
  if (values.length > mostValues) throw refuse(place, `at most ${mostValues} values`, String(values.length));
  return values;
}

function expandRange(entry: string, place: string): unknown[] {
  const parts = range.exec(entry.trim());
  if (parts === null) return [entry];
  const [first, last, width] = [Number(parts[1]), Number(parts[2]), Math.abs(Number(parts[3] ?? 1))];
  // Rounding may leave the last value just beyond its limit.
  const count = Math.floor(Math.abs(last - first) / width + 1e-9) + 1;
  if (!(width > 0)) throw refuse(place, 'a step that is not zero', entry);
  if (!(count <= mostValues)) throw refuse(place, `at most ${mostValues} values`, entry);
  const step = last < first ? -width : width;
  // With as many decimals as were written: 1..3 step 0.1 has 1.3, not 1.3000000000000003, and -0.1..0.1 step 0.1 has 0.
  const decimals = Math.max(decimalsOf(parts[1]!), decimalsOf(parts[3] ?? '1'));
  return Array.from({ length: count }, (_, i) => Number((first + i * step).toFixed(decimals)) + 0);
}

function decimalsOf(written: string): number {
  const [mantissa, exponent] = written.toLowerCase().split('e');
  const decimals = (mantissa!.split('.')[1] ?? '').length - Number(exponent ?? 0);
  // The most that `toFixed` takes.
  return Math.min(100, Math.max(0, decimals));
}

const refuse = (path: string, expected: string, received: string) =>
  new InputError({ path, expected, received, remedy });
