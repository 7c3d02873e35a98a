import { describe, expect, it } from 'vitest';
import { sampleDesign, sampleFront } from '../../../../test/fixtures/results.js';
import { readResult, resultKindOf, resultKinds, resultSchema } from './index.js';

const read = (data: unknown) => readResult(JSON.parse(JSON.stringify(data)), ['front'], 'front.json');

/** All schemas of numbers in a JSON Schema. */
function numbersIn(schema: unknown, path = ''): { path: string; unit?: string; description?: string }[] {
  if (typeof schema !== 'object' || schema === null) return [];
  const own = (schema as { type?: unknown }).type === 'number' && !Object.hasOwn(schema, 'const');
  return [
    ...(own ? [{ path, ...(schema as object) }] : []),
    ...Object.entries(schema).flatMap(([key, part]) => numbersIn(part, `${path}.${key}`)),
  ];
}

describe('the JSON Schema of a result', () => {
  it.each(resultKinds)('of %s says the meaning of every number, with its unit', async (kind) => {
    const schema = await resultSchema(kind);
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(schema.title).toBe(`lumenfront ${kind}`);
    // The unit of a number without bound, and of a coordinate, stands one level above it.
    const bare = numbersIn(schema).filter(({ path }) => !/\.(anyOf|prefixItems)\.\d+$/.test(path));
    expect(bare.length).toBeGreaterThan(5);
    for (const { path, unit, description } of bare) {
      expect(description, path).toMatch(/\.$/);
      expect(unit, path).toBeTypeOf('string');
      if (unit !== '1') expect(description, path).toContain(`Unit: ${unit}`);
    }
  });
});

describe('reading a result', () => {
  const front = sampleFront([sampleDesign(1, 1, 20)]);

  it('takes what was written, also before results said their kind', async () => {
    expect(await read(front)).toEqual({ kind: 'front', result: front });
    const marked = { kind: 'front', formatVersion: 1, brief: { fingerprint: 'ab', decides: { loads: {} } }, ...front };
    expect((await read(marked)).result).toEqual(marked);
  });

  it('takes null for what has no bound: JSON has no infinity', async () => {
    const design = { ...sampleDesign(1, 1, 20), wall: Number.POSITIVE_INFINITY };
    expect((await read({ ...front, designs: [design] })).result.designs).toEqual([design]);
  });

  it('leaves out what it does not know, and takes the older word for conductance', async () => {
    const { result } = await read({
      ...front,
      further: 1,
      search: { ...front.search, objective: { size: 'flow', cost: 'peak' } },
    });
    expect(result).not.toHaveProperty('further');
    expect(result.search.objective.size).toBe('conductance');
  });

  it.each([
    ['text', /front\.json: result: expected a result of front, received "text"; give what front wrote with --json/],
    [{ ...front, kind: 'pick' }, /expected a result of front, received a result of pick/],
    [{ ...front, formatVersion: 7 }, /formatVersion: expected 1, received 7; read it with the version of lumenfront/],
    [{ ...front, allow: '32' }, /front\.json: allow: expected a number in MPa, received "32"; give the file as/],
    [
      { ...front, designs: [{}] },
      /designs\[0\]\.area: expected a number in mm², received nothing.*designs\[0\]\.peak/s,
    ],
    [
      { ...front, designs: [{ ...front.designs[0], cases: { limit: { peak: 1, at: [0], least: 0 } } }] },
      /cases\.limit\.at/,
    ],
  ])('refuses %j with path, what was expected, what was received and a remedy', async (data, says) => {
    await expect(read(data)).rejects.toThrow(says as RegExp);
  });

  it('knows older results by their keys', () => {
    expect(resultKindOf({ fast: {}, area: 1 })).toBe('check');
    expect(resultKindOf({ designs: [], drawn: [] })).toBe('scatter-front');
    expect(resultKindOf({ family: 'ellipse', parameters: {} })).toBeUndefined();
    expect(resultKindOf({ kind: 'soup', designs: [] })).toBeUndefined();
  });
});

describe('a joint in which nothing fails', () => {
  it('starts to fail nowhere: nulls in a file', async () => {
    const nowhere = { place: 'none', at: [Number.NaN, Number.NaN] as const };
    const strength = { retained: 1, loadFactor: Number.POSITIVE_INFINITY, worstCase: 'limit', ...nowhere };
    const front = sampleFront([{ ...sampleDesign(1, 1, 20), strength }]);
    expect((await read(front)).result).toEqual(front);
  });
});
