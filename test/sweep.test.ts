import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { randomFrom } from '@lumenfront/optimizer';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runCommand } from './fixtures/command.js';

/** The built command, in a process of its own, as a user meets it. */
const command = fileURLToPath(new URL('../packages/cli/bin/lumenfront.js', import.meta.url));

const brief = `
host: { kind: plate, material: generic-epoxy-resin }
loads: { farField: { sx: 10, sy: 5 } }
channel: { families: [ellipse], largest: { width: 4, height: 4 } }
allow: 22
search: { evaluations: 100 }
`;
const vary = ['--vary', 'loads.farField.sy=4..9 step 1', '--vary', 'allow=5,20,22'];
const cases = 18;

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'lumenfront-sweep-'));
  writeFileSync(join(folder, 'brief.yaml'), brief);
});
afterAll(() => rmSync(folder, { recursive: true }));

function sweep(out: string, ...options: string[]) {
  const argv = [command, 'sweep', join(folder, 'brief.yaml'), '--out', join(folder, out), ...options];
  const child = spawn(process.execPath, argv, { stdio: ['ignore', 'pipe', 'pipe'] });
  let stdout = '';
  let stderr = '';
  child.stdout.on('data', (chunk) => {
    stdout += chunk;
  });
  child.stderr.on('data', (chunk) => {
    stderr += chunk;
  });
  const end = new Promise<{ code: number | null; signal: string | null; stdout: string; stderr: string }>((resolve) =>
    child.once('close', (code, signal) => resolve({ code, signal, stdout, stderr })),
  );
  return { child, end };
}

const bytesOf = (out: string, name = 'results.ndjson') =>
  existsSync(join(folder, out, name)) ? readFileSync(join(folder, out, name), 'utf8') : '';
/** Complete lines; a last one may be half written. */
const linesOf = (out: string, name?: string) => bytesOf(out, name).split('\n').slice(0, -1);

async function linesReach(out: string, count: number): Promise<void> {
  while (linesOf(out).length < count) await new Promise((resolve) => setTimeout(resolve, 5));
}

let undisturbed: string[];
beforeAll(async () => {
  const { code, stderr } = await sweep('undisturbed', ...vary, '--workers', '2').end;
  // Piped: no progress.
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  undisturbed = linesOf('undisturbed').sort();
  expect(undisturbed).toHaveLength(cases);
});

describe('a sweep of the built command', () => {
  it('killed at two random moments ends with the same results, byte for byte', { tags: 'long' }, async () => {
    const random = randomFrom(1);
    const out = 'killed';
    for (let kill = 0; kill < 2; kill++) {
      const { child, end } = sweep(out, ...vary, '--workers', '2');
      await linesReach(out, linesOf(out).length + 1);
      await new Promise((resolve) => setTimeout(resolve, 150 * random.uniform()));
      child.kill('SIGKILL');
      expect((await end).signal).toBe('SIGKILL');
    }
    const before = linesOf(out);
    expect(before.length).toBeLessThan(cases);
    const { code, stdout } = await sweep(out, ...vary, '--json', '--workers', '1').end;
    expect(code).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({ cases, computed: cases - before.length });
    expect(linesOf(out).slice(0, before.length)).toEqual(before);
    expect(linesOf(out).sort()).toEqual(undisturbed);
    for (const name of ['summary.csv', 'plot.svg']) expect(bytesOf(out, name)).toBe(bytesOf('undisturbed', name));
  });

  it('stopped by Ctrl-C says so, ends by it, and goes on later', { tags: 'long' }, async () => {
    const { child, end } = sweep('stopped', ...vary, '--workers', '1');
    await linesReach('stopped', 2);
    child.kill('SIGINT');
    const { signal, stdout, stderr } = await end;
    expect({ signal, stdout }).toEqual({ signal: 'SIGINT', stdout: '' });
    expect(stderr).toMatch(/^stopped; \d+ results are in .*, the same command goes on from there\n$/);
    expect(bytesOf('stopped').endsWith('\n')).toBe(true);
    expect(readdirSync(join(folder, 'stopped'))).toEqual(['results.ndjson']);
    expect((await sweep('stopped', ...vary, '--workers', '1').end).code).toBe(0);
    expect(linesOf('stopped').sort()).toEqual(undisturbed);
  });

  it('refuses a folder in which another one is running', { tags: 'long' }, async () => {
    const first = sweep('taken', '--vary', 'search.seed=1..1000', '--workers', '1');
    await linesReach('taken', 1);
    const { code, stderr } = await sweep('taken', ...vary, '--workers', '1').end;
    expect(code).toBe(2);
    expect(stderr).toMatch(/--out: expected a folder that no other sweep writes to, received .*taken, which process/);
    first.child.kill('SIGKILL');
    await first.end;
  });

  it('in shards, at the same time, is the whole once merged', { tags: 'long' }, async () => {
    const shards = await Promise.all(
      [1, 2].map((number) => sweep('shards', ...vary, '--workers', '1', '--shard', `${number}/2`).end),
    );
    expect(shards.map(({ code }) => code)).toEqual([0, 0]);
    const { stdout } = await sweep('shards', ...vary, '--json', '--workers', '1').end;
    expect(JSON.parse(stdout)).toMatchObject({ cases, computed: 0 });
    expect(linesOf('shards').sort()).toEqual(undisturbed);
  });

  it('of fronts from a plan file plots the fronts', { tags: 'long' }, async () => {
    writeFileSync(join(folder, 'plan.yaml'), 'run: front\ncombine: zip\nvary: { search.seed: 1..2, allow: [5, 22] }\n');
    const { code, stdout } = await sweep('fronts', '--plan', join(folder, 'plan.yaml'), '--json', '--workers', '1').end;
    expect(code).toBe(0);
    const { run, figures } = JSON.parse(stdout);
    expect([run, figures.length]).toEqual(['front', 2]);
    // No design of it stays within 5 MPa.
    expect(figures[0].design).toBeUndefined();
    for (const { against: peak } of figures[0].front) expect(peak).toBeGreaterThan(5);
    expect(figures[1].design.peak).toBeLessThanOrEqual(22);
    expect(bytesOf('fronts', 'plot.svg')).toContain('peak edge stress');
  });

  it('records the case that cannot be met, and says so only if all are', { tags: 'long' }, async () => {
    const row = undisturbed.map((line) => JSON.parse(line)).filter(({ status }) => status === 'unmet');
    expect(row).toHaveLength(cases / 3);
    for (const { vary, error, leastPeak } of row) {
      expect(vary.allow).toBe(5);
      expect(leastPeak).toBeGreaterThan(5);
      expect(error.kind).toBe('cannot be met');
    }
    const { code, stderr } = await sweep('unmet', '--vary', 'allow=4,5', '--workers', '1').end;
    expect(code).toBe(1);
    expect(stderr).toMatch(/^cannot be met: none of 2 cases; the first one: no channel/);
  });

  it.each([
    [['--vary', 'host.materal=x'], /--vary host\.materal: expected one of kind,.* received host\.materal/],
    [['--vary', 'allow=a,b'], /brief\.yaml:5: allow: expected a number above 0 and at most 10000 MPa, received "a"/],
    [['--vary', 'allow=1,2', '--vary', 'search.seed=1', '--zip'], /--vary search\.seed: expected 2 values/],
    [[], /--vary: expected at least one value to vary/],
    [['--vary', 'allow=1', '--run', 'check'], /pick, front/],
    [['--vary', 'allow=1', '--workers', '0'], /--workers: expected a whole number of at least 1/],
    [['--vary', 'allow=1', '--shard', '3/2'], /--shard: expected the number of a part/],
    [['--vary', 'allow=1', '--queue', 'http://x'], /--queue: expected the address/],
    [['--serve'], /--serve: expected the --queue to serve/],
    [['--serve', '--queue', 'redis://127.0.0.1:1'], /--serve: expected no brief and nothing to vary/],
  ])('refuses %j', async (options, says) => {
    const argv = ['sweep', join(folder, 'brief.yaml'), '--out', join(folder, 'refused'), ...options];
    const { status, stdout, stderr } = await runCommand(...argv);
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    expect(stderr).toMatch(says);
    expect(existsSync(join(folder, 'refused'))).toBe(false);
  });
});
