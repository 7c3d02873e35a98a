import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { run } from '../packages/cli/src/index.js';
import type { KnownKind } from '../packages/core/src/host/index.js';
import { hostKind, hostOf, isHostLoaded, loadHost, registerHost } from '../packages/core/src/host/index.js';
import { createStressModel } from '../packages/core/src/stress/index.js';
import { checkHost } from './fixtures/host-checks.js';
import { roundFillerHost, roundFillerSample } from './fixtures/round-filler.js';
import { ellipseNodes } from './fixtures/tee-reference.js';

registerHost(roundFillerHost);

const joint = roundFillerSample.joint(1);
const host = hostOf(joint);

checkHost(roundFillerSample);

describe('a host that the project does not know', () => {
  const model = host.reduce({ wall: 0.15, edgeRadius: 0.1 });
  const peak = (nodes: Parameters<ReturnType<typeof createStressModel>['evaluate']>[0], loads = tension) =>
    createStressModel(model, loads, [{ name: 'one', factors: { [Object.keys(loads)[0]!]: 1 } }]).evaluate(nodes, false)
      .worst;
  const tension: Readonly<Record<string, Readonly<Record<string, number>>>> = { farField: { sx: 1, sy: 0, txy: 0 } };

  // Three concentric regions by closed potentials, computed independently of this engine; tension across, and all round.
  it.each([
    [0.25, 1.74615, 1.40898],
    [0.5, 1.50401, 1.17464],
    [0.7, 1.38005, 0.96846],
    [0.9, 1.22452, 0.78479],
  ])('has the peaks of a concentric channel of %f radii in closed form', (share, across, round) => {
    const nodes = ellipseNodes(2 * share, 2 * share, [0, 0], 0, 128);
    expect(peak(nodes) / across).toBeCloseTo(1, 4);
    expect(peak(nodes, { farField: { sx: 1, sy: 1, txy: 0 } }) / round).toBeCloseTo(1, 4);
  });

  it('has the limit of a small channel by Goodier (1933)', () => {
    const nodes = ellipseNodes(0.002, 0.002, [0, 0], 0, 64);
    expect(peak(nodes) / 1.894169).toBeCloseTo(1, 4);
  });
});

describe('the command line with such a host', { tags: 'long' }, () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'lumenfront-third-host-'));
    writeFileSync(
      join(folder, 'joint.yaml'),
      `title: Round filler
host: { kind: round-filler, radius: 2, filler: generic-epoxy-resin, around: generic-carbon-epoxy }
loads: { farField: { sx: 20 }, warm: { deltaT: -20 } }
cases: { cold: { warm: 1 }, pulled: { warm: 1, farField: 1 } }
channel: { families: [ellipse], wall: 0.2, edgeRadius: 0.2 }
search: { evaluations: 300 }
`,
    );
  });
  afterAll(() => {
    vi.unstubAllEnvs();
    rmSync(folder, { recursive: true });
  });
  const at = (name: string) => join(folder, name);
  const call = async (...argv: string[]) => {
    const streams = { stdout: new PassThrough(), stderr: new PassThrough() };
    const code = await run(argv, streams as never);
    const errors = String(streams.stderr.read() ?? '');
    expect(code, errors).toBe(0);
    return String(streams.stdout.read() ?? '');
  };

  it('goes from brief to front, check, report and drawing', async () => {
    const front = await call('front', at('joint.yaml'), '--json', '--quiet', '--workers', '1', '--verify', '0');
    writeFileSync(at('front.json'), front);
    const { designs } = JSON.parse(front) as { designs: { area: number; strength: { place: string } }[] };
    expect(designs.length).toBeGreaterThan(2);
    expect(['edge', 'filler', 'seam']).toContain(designs[0]!.strength.place);

    const checked = await call('check', at('joint.yaml'), '--channel', at('front.json'), '--design', '1', '--quiet');
    expect(checked).toContain('warm');
    await call(
      'draw',
      at('joint.yaml'),
      '--channel',
      at('front.json'),
      '--design',
      '1',
      '--out',
      at('channel.svg'),
      '--quiet',
    );
    expect(readFileSync(at('channel.svg'), 'utf8')).toMatch(/id="FILLER" d="M2 0A2 2 0 0 0 -2 0A2 2 0 0 0 2 0Z"/);
    await call(
      'draw',
      at('joint.yaml'),
      '--channel',
      at('front.json'),
      '--design',
      '1',
      '--out',
      at('channel.dxf'),
      '--quiet',
    );
    expect(readFileSync(at('channel.dxf'), 'utf8')).toContain('FILLER');
    await call(
      'report',
      // Its mesh knows no section without channel.
      '--fast',
      at('joint.yaml'),
      '--channel',
      at('front.json'),
      '--out',
      at('report.html'),
      '--pictures',
      at('pictures'),
      '--quiet',
    );
    expect(readFileSync(at('report.html'), 'utf8')).toContain('round filler of radius 2 mm in a sheet');
    expect(readFileSync(at('pictures/joint.svg'), 'utf8')).toContain('Filler, enlarged');
  });

  it('says that worker threads do not know it', async () => {
    const streams = { stdout: new PassThrough(), stderr: new PassThrough() };
    const code = await run(['front', at('joint.yaml'), '--quiet', '--workers', '2', '--verify', '0'], streams as never);
    expect(code).toBe(2);
    expect(String(streams.stderr.read())).toMatch(/^host.kind: expected one of tee, plate.* --import MODULE/);
  });

  it('uses workers where Node is started with the module that registers it', () => {
    writeFileSync(
      at('sheet.yaml'),
      `host: { kind: sheet, material: generic-epoxy-resin }
loads: { farField: { sx: 20 } }
cases: { pulled: { farField: 1 } }
channel: { families: [ellipse], edgeRadius: 0.2, largest: { width: 2, height: 2 } }
search: { evaluations: 200 }
`,
    );
    const file = (path: string) => fileURLToPath(new URL(path, import.meta.url));
    const command = ['--import', file('fixtures/sheet-host.js'), file('../packages/cli/bin/lumenfront.js')];
    const options = ['--quiet', '--json', '--workers', '2', '--verify', '1'];
    const { stdout } = spawnSync(process.execPath, [...command, 'front', at('sheet.yaml'), ...options], {
      encoding: 'utf8',
    });
    expect((JSON.parse(stdout) as { designs: unknown[] }).designs.length).toBeGreaterThan(0);
  });

  it('stands in the schema and in messages', async () => {
    writeFileSync(
      at('faulty.yaml'),
      'host: { kind: round-filler, radius: 2, filler: generic-epoxy-resin, around: nothing }\nloads: { pull: {} }\n',
    );
    const streams = { stdout: new PassThrough(), stderr: new PassThrough() };
    expect(await run(['brief', '--check', at('faulty.yaml')], streams as never)).not.toBe(0);
    const errors = String(streams.stderr.read() ?? '');
    expect(errors).toContain('one of the loads of a round-filler: farField, pressure, warm');
    expect(errors).toContain('host.around');
  });
});

describe('kinds of host', () => {
  const { loads, places } = roundFillerHost;
  const other = (more: Partial<KnownKind>): KnownKind => ({ ...roundFillerHost, kind: 'other', ...more });
  const open = () => host;

  it('stand beside each other once each, their loads and places by one meaning', async () => {
    registerHost(roundFillerHost);
    expect(isHostLoaded('round-filler')).toBe(true);
    await loadHost('round-filler');
    expect(() => registerHost({ ...roundFillerHost, open })).toThrow('host kind round-filler is known already');
    const wide = loads.map((load) => ({ ...load, sentence: 'Something else.' }));
    expect(() => registerHost(other({ loads: wide }))).toThrow(/another kind defines the load .* otherwise/);
    const called = Object.fromEntries(
      Object.entries(places).map(([name, place]) => [name, { ...place, label: 'else' }]),
    );
    expect(() => registerHost(other({ places: called }))).toThrow(/another kind calls the place .* otherwise/);
    expect(() => hostKind('other')).toThrow(/host.kind: expected one of .*round-filler, received other; register/);
  });

  it('give way to the whole of them, where a part was known', () => {
    const part = (joint: object) => 'small' in joint;
    registerHost(other({ part, open }));
    expect(isHostLoaded({ kind: 'other', small: true } as never)).toBe(true);
    expect(['other', { kind: 'other' }].some((one) => isHostLoaded(one as never))).toBe(false);
    registerHost(other({}));
    registerHost(other({ part, open }));
    expect(hostKind('other').open).toBe(roundFillerHost.open);
  });
});
