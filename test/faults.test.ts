import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';

/** The built command, in a process of its own, as a user meets it. */
const command = fileURLToPath(new URL('../packages/cli/bin/lumenfront.js', import.meta.url));

const plate = `
host: { kind: plate, material: generic-epoxy-resin }
loads: { farField: { sx: 10, sy: 5 } }
channel: { families: [ellipse], largest: { width: 4, height: 4 } }
allow: 22
search: { evaluations: 100 }
`;

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'lumenfront-faults-'));
  writeFileSync(join(folder, 'plate.yaml'), plate);
});
afterAll(() => rmSync(folder, { recursive: true }));

const at = (...names: string[]) => join(folder, ...names);

function lumenfront(...argv: string[]) {
  const environment = { ...process.env, TMPDIR: folder };
  return spawnSync(process.execPath, [command, ...argv], { encoding: 'utf8', env: environment });
}

/** A disk of its own of so many kibibytes; false where this process may not have one. */
const disk = mkdtempSync(join(tmpdir(), 'lumenfront-disk-'));
const mount = (...argv: string[]) => spawnSync('mount', argv).status === 0;
const mounted = process.platform === 'linux' && mount('-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', disk);
afterAll(() => {
  if (mounted) spawnSync('umount', [disk]);
  rmSync(disk, { recursive: true });
});

describe.runIf(mounted)('a disk that is full', () => {
  afterEach(() => mount('-o', 'remount,rw', disk));
  beforeAll(() => writeFileSync(join(disk, 'fill'), new Uint8Array(60 * 1024)));

  it('takes no part of a result, which is kept elsewhere', { tags: 'long' }, () => {
    const { status, stdout, stderr } = lumenfront('pick', at('plate.yaml'), '--json', '--out', join(disk, 'p.json'));
    expect(status).toBe(2);
    expect(stderr).toMatch(/room on the disk/);
    const kept = /the result is kept in (.*)\n/.exec(stderr)![1]!;
    expect(readFileSync(kept, 'utf8')).toBe(stdout);
    expect(readdirSync(disk)).toEqual(['fill']);
  });

  it('stops a sweep, which goes on when there is room', { tags: 'long' }, () => {
    const argv = ['sweep', at('plate.yaml'), '--vary', 'allow=18..28 step 2', '--out', join(disk, 's'), '--json'];
    const full = lumenfront(...argv);
    expect({ status: full.status, stderr: full.stderr }).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('room on the disk'),
    });
    const before = readFileSync(join(disk, 's', 'results.ndjson'), 'utf8').split('\n').length - 1;
    expect(before).toBeLessThan(6);
    rmSync(join(disk, 'fill'));
    mount('-o', 'remount,size=4m', disk);
    const { status, stdout } = lumenfront(...argv);
    expect(status).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({ cases: 6, computed: 6 - before });
  });

  it('is told before the search where it is for reading only', { tags: 'long' }, () => {
    mount('-o', 'remount,ro', disk);
    for (const argv of [
      ['pick', at('plate.yaml'), '--out', join(disk, 'p.json')],
      ['sweep', at('plate.yaml'), '--vary', 'allow=20', '--out', join(disk, 'new', 'one')],
    ]) {
      const { status, stderr } = lumenfront(...argv);
      expect({ status, stderr }).toMatchObject({ status: 2, stderr: expect.stringMatching(/no permission/) });
    }
  });
});

describe('a run that is killed', { tags: 'long' }, () => {
  it('while it writes leaves the file that was there, whole', async () => {
    const out = at('front.json');
    const argv = ['front', at('plate.yaml'), '--verify', '0', '--quiet', '--json', '--out', out, '--force'];
    expect(lumenfront(...argv).status).toBe(0);
    const whole = readFileSync(out, 'utf8');
    for (let delay = 100; delay <= 700; delay += 200) {
      const child = spawn(process.execPath, [command, ...argv], { stdio: 'ignore' });
      const ended = new Promise((resolve) => child.once('close', resolve));
      setTimeout(() => child.kill('SIGKILL'), delay);
      await ended;
      expect(readFileSync(out, 'utf8')).toBe(whole);
    }
  });
});

describe('a reader that is gone', () => {
  it.each(['stdout', 'stderr'] as const)('of %s is no failure', { tags: 'long' }, async (stream) => {
    const out = at(`${stream}.json`);
    const child = spawn(process.execPath, [command, 'pick', at('plate.yaml'), '--out', out], {
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    child[stream].destroy();
    let said = '';
    child[stream === 'stdout' ? 'stderr' : 'stdout'].on('data', (chunk) => {
      said += chunk;
    });
    expect(await new Promise((resolve) => child.once('close', resolve))).toBe(0);
    expect(said).not.toMatch(/EPIPE|internal error/);
    if (stream === 'stderr') expect(existsSync(out)).toBe(true);
  });
});
