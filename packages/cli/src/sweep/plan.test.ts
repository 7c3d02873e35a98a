import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  type BriefPath,
  InputError,
  readBriefText,
  readPath,
  starterBrief,
  withValue,
  writePath,
} from '@lumenfront/core';
import { openCase } from '@lumenfront/optimizer';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Combination, combine, readVariation } from './plan.js';
import { readPlanFile } from './plan-file.js';
import { readValues } from './values.js';

describe('paths', () => {
  it.each([
    ['allow', ['allow']],
    ['host.bendRadius', ['host', 'bendRadius']],
    ['host.overlaminate.layup[2]', ['host', 'overlaminate', 'layup', 2]],
    ['materials["carbon 2.0"].E1', ['materials', 'carbon 2.0', 'E1']],
    ['materials.demo-glass-epoxy.E1', ['materials', 'demo-glass-epoxy', 'E1']],
    ['cases.cure only.cure', ['cases', 'cure only', 'cure']],
  ])('%s', (written, path) => {
    expect(readPath(written, '--vary')).toEqual({ path, rest: '' });
    expect(readPath(`${written}=1`, '--vary')).toEqual({ path, rest: '=1' });
    expect(readPath(` ${written} = a=b`, '--vary')).toEqual({ path, rest: '= a=b' });
  });

  it('are read as they are written, whatever the names', () => {
    const step = fc.oneof(fc.string({ minLength: 1 }), fc.nat({ max: 999 }));
    fc.assert(
      fc.property(fc.stringMatching(/^[a-z]+$/), fc.array(step, { maxLength: 4 }), (first, further) => {
        const path = [first, ...further];
        expect(readPath(writePath(path), '')).toEqual({ path, rest: '' });
      }),
    );
  });

  it.each(['', '.', '=3', 'host.', 'host..web', 'host.layup[', 'host.layup[x]', 'host.layup[-1]', '[2]', 'a]b'])(
    'refuses %j',
    (written) => {
      expect(() => readPath(written, '--vary')).toThrow(/--vary: expected the path of a value/);
    },
  );
});

describe('setting a value', () => {
  it('leaves the data as they were and makes what is missing on the way', () => {
    const data = { a: { b: 1 }, list: [1, 2, 3] };
    expect(withValue(data, ['a', 'c', 'd'], 5)).toEqual({ a: { b: 1, c: { d: 5 } }, list: [1, 2, 3] });
    expect(withValue(data, ['list', 1], 9)).toEqual({ a: { b: 1 }, list: [1, 9, 3] });
    expect(data).toEqual({ a: { b: 1 }, list: [1, 2, 3] });
  });

  it('takes no name for more than a name', () => {
    const made = withValue({}, ['__proto__', 'polluted'], true) as object;
    expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
    expect(Object.keys(made)).toEqual(['__proto__']);
  });
});

describe('values', () => {
  it.each([
    ['2,3,4', [2, 3, 4]],
    [' 2 , 3 ', [2, 3]],
    ['1..3', [1, 2, 3]],
    ['1..3 step 0.5', [1, 1.5, 2, 2.5, 3]],
    ['0..1 step 0.3', [0, 0.3, 0.6, 0.9]],
    ['1..1.3 step 0.1', [1, 1.1, 1.2, 1.3]],
    ['3..1', [3, 2, 1]],
    ['-1 .. 1', [-1, 0, 1]],
    ['0.35..-0.1 step 0.05', [0.35, 0.3, 0.25, 0.2, 0.15, 0.1, 0.05, 0, -0.05, -0.1]],
    ['2.5e3..2.6e3 step 5e1', [2500, 2550, 2600]],
    ['1e-6..3e-6 step 1e-6', [1e-6, 2e-6, 3e-6]],
    ['5..5', [5]],
    ['1..2,7', [1, 2, 7]],
    ['clamped,simple', ['clamped', 'simple']],
    [
      '[45,-45],[0,90]',
      [
        [45, -45],
        [0, 90],
      ],
    ],
    ['quasi-isotropic,[0,90]', ['quasi-isotropic', [0, 90]]],
    ['{pull: 1},{cure: 1, pull: 2}', [{ pull: 1 }, { cure: 1, pull: 2 }]],
    ['true,false', [true, false]],
  ])('%s', async (written, values) => {
    expect(await readValues(written, '--vary x')).toEqual(values);
  });

  it('of a range come evenly, and end at or before its last', async () => {
    const decimal = fc.integer({ min: -500, max: 500 }).map((n) => n / 100);
    const width = fc.integer({ min: 1, max: 300 }).map((n) => n / 100);
    await fc.assert(
      fc.asyncProperty(decimal, decimal, width, async (first, last, step) => {
        const values = (await readValues(`${first}..${last} step ${step}`, '')) as number[];
        expect(values[0]).toBe(first);
        expect(values.length).toBe(
          Math.floor(Math.abs(Math.round(100 * last) - Math.round(100 * first)) / Math.round(100 * step)) + 1,
        );
        // Nothing but decimals with two places, as they were written.
        for (const value of values) expect(value).toBe(Math.round(100 * value) / 100);
      }),
      { numRuns: 30 },
    );
  });

  it.each([
    ['', /expected at least one value, received none; write, for example/],
    ['1,,2', /expected values separated by commas/],
    ['[1', /expected values separated by commas/],
    ['1..2 step 0', /expected a step that is not zero, received 1\.\.2 step 0/],
    ['1..1e9', /expected at most 10000 values/],
    ['1..1e400', /expected at most 10000 values/],
  ])('refuses %j', async (written, says) => {
    await expect(readValues(written, '--vary x')).rejects.toThrow(says);
  });
});

let starter: unknown;
beforeAll(async () => {
  starter = (await readBriefText(starterBrief)).data;
});

const vary = (...written: string[]) => Promise.all(written.map(readVariation));
const varied = async (combination: Combination, ...written: string[]) =>
  (await combine(starter, await vary(...written), combination)).map((variant) => Object.values(variant.vary));

describe('combinations', () => {
  it('cross: the last one changes fastest', async () => {
    expect(await varied('cross', 'host.bendRadius=5,6', 'host.support=clamped,simple', 'search.seed=1..2')).toEqual([
      [5, 'clamped', 1],
      [5, 'clamped', 2],
      [5, 'simple', 1],
      [5, 'simple', 2],
      [6, 'clamped', 1],
      [6, 'clamped', 2],
      [6, 'simple', 1],
      [6, 'simple', 2],
    ]);
  });

  it('zip: one after the other', async () => {
    expect(await varied('zip', 'host.bendRadius=5,6', 'allow=30,40')).toEqual([
      [5, 30],
      [6, 40],
    ]);
  });

  it('changes nothing but what is varied', async () => {
    const [variant] = await combine(starter, await vary('host.overlaminate.layup[8]=90'), 'cross');
    const data = variant!.data as { host: { overlaminate: { layup: number[] } } };
    expect(data.host.overlaminate.layup).toEqual([45, -45, 0, 0, 90, 0, 0, -45, 90]);
    expect(withValue(data, ['host', 'overlaminate', 'layup', 8], 45)).toEqual(starter);
  });

  it('reaches what a brief leaves to its default, alternatives, materials, cases and lists', async () => {
    const written = [
      'channel.largest.width=3',
      'loads.side.force=5',
      'host.skin.layup=quasi-isotropic,[0,90]',
      'host.overlaminate.plyThickness=0.2',
      'materials.demo-glass-epoxy.E1=4e4',
      'cases.pulled.pull=0.4',
      'cases.new={cure: 1}',
      'channel.reference.at[1]=2.5',
      'title=a,b',
    ];
    for (const one of written) expect((await varied('cross', one)).length).toBeGreaterThan(0);
  });

  it.each([
    [
      ['host.bendRadus=1'],
      /--vary host\.bendRadus: expected one of kind, bendRadius.* in host, received host\.bendRadus; correct/,
    ],
    [['hots.bendRadius=1'], /expected one of title, host, .* in the brief, received hots;/],
    [['materials.none.E1=1'], /expected a name under materials: demo-glass-epoxy, received materials\.none/],
    [['cases.none.pull=1'], /expected a name under cases: cured, pulled, limit/],
    [['allow.value=1'], /expected allow, a single value, received allow\.value/],
    [['allow[0]=1'], /expected a place in allow, which is no list/],
    [['host.overlaminate.layup[9]=1'], /an entry of host\.overlaminate\.layup that the brief gives, counted from 0/],
    [['channel.largest.width[0]=1'], /which is no list/],
    [['allow=1,2', 'allow=3'], /received allow beside allow; vary each value once/],
    [['host.web.height=1,2', 'host.web={height: 3}'], /received host\.web beside host\.web\.height/],
    [['__proto__.x=1'], /expected one of title/],
    [['constructor=1'], /expected one of title/],
    [['allow'], /--vary allow: expected PATH=VALUES, received no values; write, for example, allow=2,3,4/],
    [[], /--vary: expected at least one value to vary, received none/],
    [['allow=1..1000', 'search.seed=1..1000'], /expected at most 100000 cases, received 1000 x 1000 = 1000000/],
  ])('refuses %j', async (written, says) => {
    await expect(varied('cross', ...written)).rejects.toThrow(says);
  });

  it('refuses to zip what has no partner', async () => {
    await expect(varied('zip', 'allow=1,2,3', 'search.seed=1..2')).rejects.toThrow(
      /--vary search\.seed: expected 3 values, as many as allow has, received 2; give lists of equal length/,
    );
  });
});

describe('a plan file', () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'lumenfront-plan-'));
  });
  afterAll(() => rmSync(folder, { recursive: true }));
  const read = (text: string) => {
    writeFileSync(join(folder, 'plan.yaml'), text);
    return readPlanFile(join(folder, 'plan.yaml'));
  };

  it('says the same as a command line', async () => {
    const plan = await read(`
run: front
combine: zip
vary:
  host.bendRadius: 4..8 step 2
  host.overlaminate.layup: [[45, -45], [0, 90], [90]]
  allow: [30, 40..50 step 10]
  title: same
`);
    expect(plan).toMatchObject({ run: 'front', combine: 'zip' });
    const same = await vary(
      'host.bendRadius=4,6,8',
      'host.overlaminate.layup=[45,-45],[0,90],[90]',
      'allow=30,40,50',
      'title=same',
    );
    const bare = (variations: typeof plan.vary) =>
      variations.map(({ path, values }): [BriefPath, unknown] => [path, values]);
    expect(bare(plan.vary)).toEqual(bare(same));
  });

  it.each([
    ['[1]', /plan\.yaml:1: plan: expected a mapping of vary, combine, run, received \[1\]/],
    ['vary: {}\nruns: pick', /plan\.yaml:2: runs: expected one of the keys vary, combine, run/],
    ['run: check', /plan\.yaml:1: run: expected one of pick, front, received "check"/],
    ['combine: [zip]', /combine: expected one of cross, zip/],
    ['vary: [1]', /vary: expected a mapping of path to values/],
    ['vary:\n  allow: {a: 1}', /plan\.yaml:2: vary\.allow: expected a path with a list of values/],
    ['vary:\n  allow=: 1', /plan\.yaml:2: vary\.allow=: expected a path with a list/],
    ['vary:\n  allow: []', /vary\.allow: expected at least one value/],
    ['vary:\n  .: 1', /expected the path of a value/],
    ['vary: {', /expected well-formed YAML/],
  ])('refuses %j', async (text, says) => {
    await expect(read(text)).rejects.toThrow(says);
  });
});

describe('the guide', () => {
  const guide = readFileSync(new URL('../../guide/sweeps.md', import.meta.url), 'utf8');

  it('has values that are read as it says', async () => {
    const rows = [...guide.matchAll(/^\| `(.+)` \| (.+) \|$/gm)];
    expect(rows.length).toBeGreaterThan(4);
    for (const [, written, said] of rows) {
      const values = await readValues(written!, '');
      if (said!.startsWith('two')) expect(values).toHaveLength(2);
      else expect(values.join(', ')).toBe(said);
    }
  });

  it('has a plan of eighteen sound cases', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'lumenfront-plan-'));
    try {
      const file = join(folder, 'plan.yaml');
      writeFileSync(file, /```yaml\n([^`]+)```/.exec(guide)![1]!);
      const { vary, combine: combination = 'cross', run = 'pick' } = await readPlanFile(file);
      const cases = await Promise.all(
        (await combine(starter, vary, combination)).map((variant) => openCase(variant, run, '1')),
      );
      expect(new Set(cases.map(({ id }) => id)).size).toBe(18);
      for (const { brief } of cases) expect(brief).not.toBeInstanceOf(InputError);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
