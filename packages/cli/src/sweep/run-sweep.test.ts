import { appendFileSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { InputError, readBriefText, readResult, starterBrief, type TeeJoint, UnmetError } from '@lumenfront/core';
import { type CaseRunner, openCase, performCase, type SweepCase } from '@lumenfront/optimizer';
import { afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { sampleDesign, samplePick } from '../../../../test/fixtures/results.js';
import { createLocalEngine } from './engine.js';
import { lockFolder } from './lock.js';
import { combine, readVariation } from './plan.js';
import type { CasePool } from './pool.js';
import { runSweep, type SweepRequest } from './run-sweep.js';
import { readShard } from './shard.js';
import { summaryCsv } from './summary.js';

const version = '1.2.3';

/** A result that follows from the brief at once, and fails in the ways a case can fail. */
const run: CaseRunner = async ({ allow, search: { seed }, joint }) => {
  if (joint.kind !== 'tee') throw new TypeError('a fault');
  if (allow < 10) throw new UnmetError('no channel', 21.5);
  const area = (allow * (joint as TeeJoint).bendRadius) / 100 + seed;
  const pick = samplePick({
    ...sampleDesign(1, 1, 0.9 * allow),
    area,
    conductance: area ** 2 / 20,
    wall: 0.2,
    minEdgeRadius: 0.3,
  });
  return { ...pick, reference: { ...pick.reference, area: 0.5, conductance: 0.0125, peak: 30 }, allow };
};

let ran: string[];
/** Runs cases in this thread, and lets `meanwhile` happen before the outcome of the case with that number. */
const poolWith = (meanwhile: (count: number) => void = () => {}): CasePool => {
  let open = true;
  return {
    workers: 3,
    perform: async (request) => {
      ran.push(request.id);
      await new Promise((resolve) => setTimeout(resolve, ran.length % 3));
      meanwhile(ran.length);
      if (!open) throw new Error('closed');
      return performCase(run, request);
    },
    close: async () => {
      open = false;
    },
  };
};

let starter: unknown;
beforeAll(async () => {
  starter = (await readBriefText(starterBrief)).data;
});

let folder: string;
beforeEach(() => {
  ran = [];
  folder = mkdtempSync(join(tmpdir(), 'lumenfront-sweep-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

async function casesOf(...written: string[]): Promise<SweepCase[]> {
  const variants = await combine(starter, await Promise.all(written.map(readVariation)), 'cross');
  return Promise.all(variants.map((variant) => openCase(variant, 'pick', version)));
}

const sweep = (cases: readonly SweepCase[], options: Partial<SweepRequest> & { pool?: CasePool } = {}) =>
  runSweep({
    cases,
    folder,
    version,
    retry: false,
    engine: createLocalEngine(async () => options.pool ?? poolWith()),
    signal: new AbortController().signal,
    ...options,
  });

const linesOf = (name = 'results.ndjson') => readFileSync(join(folder, name), 'utf8').split('\n').slice(0, -1);
const twelve = ['host.bendRadius=5..7', 'search.seed=1..4'] as const;

describe('a sweep', () => {
  it('runs every case once and keeps what came of it', async () => {
    const cases = await casesOf(...twelve);
    const { figures, computed, complete } = await sweep(cases);
    expect({ computed, complete, ran: ran.length }).toEqual({ computed: 12, complete: true, ran: 12 });
    expect(figures.map(({ vary }) => Object.values(vary))).toEqual(cases.map(({ vary }) => Object.values(vary)));
    expect(figures[5]!.design!.area).toBeCloseTo((32 * 6) / 100 + 2, 12);
    const record = linesOf()
      .map((line) => JSON.parse(line))
      .find((one) => one.case === cases[5]!.id);
    expect((await readResult(record, ['sweep-line'], 'results.ndjson')).result).toEqual(record);
    expect(record).toEqual({
      kind: 'sweep-line',
      formatVersion: 1,
      case: cases[5]!.id,
      version,
      run: 'pick',
      vary: { 'host.bendRadius': 6, 'search.seed': 2 },
      status: 'done',
      result: await run(cases[5]!.brief as never, 'pick'),
    });
  });

  it('runs nothing a second time, however it is asked for', async () => {
    await sweep(await casesOf(...twelve));
    const { computed, figures } = await sweep(await casesOf('search.seed=2..5', 'host.bendRadius=7,6'));
    expect([computed, ran.length, figures.length]).toEqual([2, 14, 8]);
    expect(linesOf()).toHaveLength(14);
  });

  it('runs cases that do not differ once, and counts each', async () => {
    const { figures, computed } = await sweep(await casesOf('title=a,b', 'allow=32,32.0'));
    expect([computed, ran.length, figures.length, linesOf().length]).toEqual([1, 1, 4, 1]);
    expect(figures.map(({ vary }) => vary.title)).toEqual(['a', 'a', 'b', 'b']);
  });

  it('runs what another version ran', async () => {
    const cases = await casesOf('allow=32');
    const variants = await combine(starter, [await readVariation('allow=32')], 'cross');
    const later = await openCase(variants[0]!, 'pick', '1.2.4');
    const front = await openCase(variants[0]!, 'front', version);
    expect(new Set([cases[0]!.id, later.id, front.id]).size).toBe(3);
  });

  it('records failures with their reasons and goes on', async () => {
    const { figures } = await sweep(await casesOf('allow=5,32', 'host.bendRadius=1,6', 'channel.families=[ellipse]'));
    expect(figures.map(({ error }) => error?.slice(0, 24))).toEqual([
      'host.bendRadius: expecte',
      'no channel',
      'host.bendRadius: expecte',
      undefined,
    ]);
    const errors = linesOf().map((line) => JSON.parse(line).error);
    expect(errors.filter(Boolean).map(({ kind }) => kind)).toEqual(['bad input', 'bad input', 'cannot be met']);
    expect(errors[0].problems[0]).toMatchObject({ path: 'host.bendRadius', remedy: expect.any(String) });
  });

  it('runs failed cases again only when asked, and keeps no line of their failure', async () => {
    // What cannot be met has not failed: it is not run again.
    const cases = await casesOf('host.bendRadius=-1,8', 'allow=5,32');
    await sweep(cases);
    expect((await sweep(cases)).computed).toBe(0);
    const before = linesOf();
    expect((await sweep(cases, { retry: true })).computed).toBe(2);
    expect(linesOf().sort()).toEqual(before.sort());
  });

  it('tells its progress', async () => {
    const told: unknown[] = [];
    await sweep(await casesOf('allow=5,32,33'), {
      onStart: async (total) => void told.push(total),
      onProgress: (done, failed, unmet) => told.push([done, failed, unmet]),
    });
    expect(told[0]).toBe(3);
    expect(told.at(-1)).toEqual([3, 0, 1]);
  });
});

describe('a sweep that is stopped', () => {
  it('keeps what it has, and goes on from there to the same results', async () => {
    const cases = await casesOf(...twelve);
    const stop = new AbortController();
    const end = await sweep(cases, { signal: stop.signal, pool: poolWith((count) => count === 6 && stop.abort()) });
    expect(end.complete).toBe(false);
    expect(end.figures.length).toBe(end.computed);
    expect(end.computed).toBeLessThan(6);
    expect(linesOf()).toHaveLength(end.computed);
    expect((await sweep(cases)).computed).toBe(12 - end.computed);
    const resumed = linesOf().sort();
    rmSync(join(folder, 'results.ndjson'));
    await sweep(cases);
    expect(linesOf().sort()).toEqual(resumed);
  });

  it('drops a line that a kill left half written', async () => {
    const cases = await casesOf(...twelve);
    await sweep(cases);
    const whole = readFileSync(join(folder, 'results.ndjson'));
    const sorted = linesOf().sort();
    const lastLine = whole.lastIndexOf(10, whole.length - 2) + 1;
    for (const length of [whole.length - 1, lastLine + 1, lastLine, 1, 0]) {
      writeFileSync(join(folder, 'results.ndjson'), whole.subarray(0, length));
      ran = [];
      await sweep(cases);
      expect(ran.length).toBe(length < lastLine ? 12 : 1);
      expect(linesOf().sort()).toEqual(sorted);
    }
  });

  it('goes on after a worker pool breaks down', async () => {
    const cases = await casesOf(...twelve);
    const pool = poolWith((count) => {
      if (count === 5) throw new Error('broken');
    });
    await expect(sweep(cases, { pool })).rejects.toThrow('broken');
    expect((await sweep(cases)).complete).toBe(true);
    expect(linesOf()).toHaveLength(12);
  });
});

describe('shards', () => {
  it('are the whole together, with nothing run twice', async () => {
    const cases = await casesOf(...twelve, 'allow=5,32');
    await sweep(cases);
    const whole = linesOf().sort();
    rmSync(join(folder, 'results.ndjson'));
    ran = [];
    for (const number of [3, 1, 5, 2, 4]) await sweep(cases, { shard: { number, count: 5 } });
    expect(readdirSync(folder).sort()).toEqual([1, 2, 3, 4, 5].map((number) => `results-${number}-of-5.ndjson`));
    expect(ran).toHaveLength(24);
    const { computed, figures } = await sweep(cases);
    expect([computed, figures.length]).toEqual([0, 24]);
    expect(linesOf().sort()).toEqual(whole);
  });

  it('do not care for lines that a neighbour is writing', async () => {
    const cases = await casesOf(...twelve);
    await sweep(cases, { shard: { number: 1, count: 2 } });
    const name = 'results-1-of-2.ndjson';
    appendFileSync(join(folder, name), '{"case":"00');
    await sweep(cases, { shard: { number: 2, count: 2 } });
    expect(readFileSync(join(folder, name), 'utf8').endsWith('{"case":"00')).toBe(true);
    expect((await sweep(cases)).computed).toBe(0);
    expect(linesOf()).toHaveLength(12);
  });

  it.each(['0/2', '3/2', '1', 'a/b', '1/0', '1/2/3', '-1/2', '1.5/2'])('refuse %j', (written) => {
    expect(() => readShard(written)).toThrow(/--shard: expected the number of a part/);
  });
});

describe('the folder', () => {
  it('is made, also within another one', async () => {
    const inner = join(folder, 'a', 'b');
    await sweep(await casesOf('allow=32'), { folder: inner });
    expect(readdirSync(inner)).toEqual(['results.ndjson']);
  });

  it('is refused with anything else in its results', async () => {
    const cases = await casesOf('allow=32');
    await sweep(cases);
    appendFileSync(join(folder, 'results.ndjson'), '{"case":"x"}\n');
    await expect(sweep(cases)).rejects.toThrow(/results\.ndjson:2: results: expected one result .* received "\{/);
    expect(linesOf()).toHaveLength(2);
  });

  it('is refused where it is a file', async () => {
    writeFileSync(join(folder, 'file'), '');
    await expect(sweep(await casesOf('allow=32'), { folder: join(folder, 'file', 'x') })).rejects.toThrow(InputError);
    await expect(sweep(await casesOf('allow=32'), { folder: join(folder, 'file') })).rejects.toThrow(InputError);
  });

  it('holds one sweep at a time, or shards that differ', () => {
    const shared = { shared: true };
    const refused =
      /--out: expected a folder that no other sweep writes to, received .* process \d+ on .*; wait for it/;
    const release = lockFolder(folder, 'a', shared);
    const other = lockFolder(folder, 'b', shared);
    expect(() => lockFolder(folder, 'b', shared)).toThrow(refused);
    expect(() => lockFolder(folder, 'c', { shared: false })).toThrow(refused);
    other();
    release();
    const whole = lockFolder(folder, 'c', { shared: false });
    expect(() => lockFolder(folder, 'a', shared)).toThrow(refused);
    whole();
    expect(readdirSync(folder)).toEqual([]);
  });

  it('is free again when whoever held it is dead, not when it may live elsewhere', () => {
    const lock = (holder: object) =>
      writeFileSync(join(folder, '.sweep-x.lock'), JSON.stringify({ target: 'a', shared: false, ...holder }));
    const dead = [
      { host: hostname(), pid: 2 ** 22 + 1, started: '1' },
      { host: hostname(), pid: process.pid, started: '1' },
      // A process of that number, but a later one.
      ...(process.platform === 'linux' ? [{ host: hostname(), pid: process.ppid, started: '1' }] : []),
    ];
    for (const holder of dead) {
      lock(holder);
      lockFolder(folder, 'a', { shared: false })();
      expect(readdirSync(folder)).toEqual([]);
    }
    lock({ host: 'elsewhere', pid: 1, started: '1' });
    expect(() => lockFolder(folder, 'a', { shared: false })).toThrow(
      /process 1 on elsewhere.*delete .*\.sweep-x\.lock/,
    );
    for (const damaged of ['', '{', '[]', 'null', '{"host":"a","pid":"1"}']) {
      writeFileSync(join(folder, '.sweep-x.lock'), damaged);
      expect(() => lockFolder(folder, 'a', { shared: false })).toThrow(/sweep-x\.lock, which is damaged; delete it/);
      expect(readdirSync(folder)).toEqual(['.sweep-x.lock']);
    }
    lock({ host: hostname(), pid: process.ppid, started: null });
    expect(() => lockFolder(folder, 'a', { shared: false })).toThrow(/expected a folder/);
  });
});

describe('the summary', () => {
  it('has a line for each case in the order of the plan, with quotes where they are needed', async () => {
    const { figures } = await sweep(await casesOf('host.overlaminate.layup=[45,-45],[0]', 'allow=5,32'));
    const area = (32 * 8) / 100 + 1;
    const [header, ...rows] = summaryCsv(figures).trimEnd().split('\n');
    expect(header).toBe(
      'host.overlaminate.layup,allow,status,family,area_mm2,conductance_mm4,peak_MPa,strength_retained_percent,load_factor,next_over_first,failure_off_edge_mm,least_peak_MPa,locally_optimal_within_percent,wall_mm,min_edge_radius_mm,failure_starts,crack_path,crack_meets_channel,allow_MPa,reference_area_mm2,reference_conductance_mm4,reference_peak_MPa,designs,error,case',
    );
    expect(rows.map((row) => row.replace(/[0-9a-f]{64}$/, ''))).toEqual([
      '"[45,-45]",5,cannot be met,,,,,,,,,21.5,,,,,,,,,,,,no channel,',
      `"[45,-45]",32,done,ellipse,${area},${area ** 2 / 20},${0.9 * 32},,,,,,,0.2,0.3,,,,32,0.5,0.0125,30,,,`,
      '[0],5,cannot be met,,,,,,,,,21.5,,,,,,,,,,,,no channel,',
      `[0],32,done,ellipse,${area},${area ** 2 / 20},${0.9 * 32},,,,,,,0.2,0.3,,,,32,0.5,0.0125,30,,,`,
    ]);
  });

  it('holds no formulas, whatever a varied text begins with', async () => {
    const [one] = (await sweep(await casesOf('allow=32'))).figures;
    const vary = { title: '=HYPERLINK("x")', allow: -5, y: '@a' };
    expect(summaryCsv([{ ...one!, vary }]).split('\n')[1]).toMatch(/^"'=HYPERLINK\(""x""\)",-5,'@a,done,/);
  });
});
