import fc from 'fast-check';
import { describe, it } from 'vitest';
import { InputError } from '../errors.js';
import { readBrief, readBriefText, resolveBrief, starterBrief } from './index.js';

/** A second or so in the suite; `benchmarks/fuzz.js` asks for more. */
const runs = (usual: number) => ({
  seed: Number(process.env.FUZZ_SEED ?? 1),
  numRuns: Math.round(usual * Number(process.env.FUZZ_TIMES ?? 1)),
});

/** Either a brief, or an `InputError` that is complete: nothing else may come out, whatever goes in. */
async function settles(action: () => Promise<unknown>): Promise<boolean> {
  try {
    await action();
    return true;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return (
      error.problems.length > 0 &&
      error.problems.every(({ path, expected, received, remedy }) => [path, expected, received, remedy].every(Boolean))
    );
  }
}

/** Values that have upset readers before. */
const oddValue = fc.oneof(
  fc.constantFrom(null, true, 0, -0, -1, 1e-300, 1e300, Number.NaN, Number.POSITIVE_INFINITY, '', '5', 'tee', [], {}),
  fc.double(),
  fc.string(),
  fc.array(fc.double(), { maxLength: 4 }),
  fc.dictionary(fc.string(), fc.integer(), { maxKeys: 3 }),
);

/** Every place in the data of a brief. */
function placesOf(value: unknown, path: readonly (string | number)[] = []): (string | number)[][] {
  if (typeof value !== 'object' || value === null) return [[...path]];
  const below = Object.entries(value).flatMap(([key, part]) =>
    placesOf(part, [...path, Array.isArray(value) ? Number(key) : key]),
  );
  return [[...path], ...below];
}

function withValue(data: unknown, path: readonly (string | number)[], value: unknown): unknown {
  if (path.length === 0) return value;
  const [step, ...rest] = path as [string | number, ...(string | number)[]];
  const copy = (Array.isArray(data) ? [...data] : { ...(data as object) }) as Record<string | number, unknown>;
  copy[step] = withValue(copy[step], rest, value);
  return copy;
}

describe('whatever is given', () => {
  it('as text, a brief or a complete error comes out', async () => {
    const edited = fc
      .tuple(
        fc.nat(starterBrief.length),
        fc.nat(60),
        fc.oneof(fc.string(), fc.constantFrom('\n', '- ', '{', '[', ':', '&a ', '*a', '!!', '"', '\t', '? ', '|')),
      )
      .map(([at, removed, added]) => starterBrief.slice(0, at) + added + starterBrief.slice(at + removed));
    await fc.assert(
      fc.asyncProperty(fc.oneof(fc.string(), edited), (text) => settles(() => readBrief(text, { file: 'any.yaml' }))),
      runs(150),
    );
  });

  it('as a value anywhere in a brief, a brief or a complete error comes out', async () => {
    const { data } = await readBriefText(starterBrief);
    await fc.assert(
      fc.asyncProperty(fc.constantFrom(...placesOf(data)), oddValue, (path, value) =>
        settles(() => resolveBrief(withValue(data, path, value))),
      ),
      runs(1500),
    );
  });
});
