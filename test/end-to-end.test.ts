import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { starterBrief } from '@lumenfront/core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runCommand } from './fixtures/command.js';

/** The built command, in a process of its own, as a user meets it. */
const command = fileURLToPath(new URL('../packages/cli/bin/lumenfront.js', import.meta.url));

let folder: string;
const at = (name: string) => join(folder, name);
const starter = starterBrief.replace(/evaluations: \d+/, 'evaluations: 400').replace(/samples: \d+/, 'samples: 20');
const quick = ['--verify', '0', '--workers', '1', '--quiet'];
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'lumenfront-end-to-end-'));
  writeFileSync(at('brief.yaml'), starter);
  writeFileSync(at('ellipses.yaml'), starter.replace('families: [ellipse, teardrop, spline]', 'families: [ellipse]'));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** On one of the folder's briefs, in this process. */
const lumenfront = (name: string, brief: string, ...options: string[]) => runCommand(name, at(brief), ...options);

describe('from a brief to a front', () => {
  it('prints plot, table, reference and caution; draws no progress into a pipe; takes the joint from the cache next time', async () => {
    const argv = [command, 'front', 'brief.yaml', '--verify', '0', '--workers', '1', '--out', 'front.json'];
    const first = spawnSync(process.execPath, argv, { encoding: 'utf8', cwd: folder });
    expect(first.status).toBe(0);
    expect(first.stderr).toMatch(/^(joint solved before: .*\n)?wrote front\.json\n$/);
    for (const text of ['peak [MPa]', 'best over all families', 'ref.', 'search: seed 1', 'qualified engineer'])
      expect(first.stdout).toContain(text);
    const second = await lumenfront('front', 'brief.yaml', ...quick, '--out', at('front.json'), '--force');
    expect(second).toMatchObject({ status: 0, stderr: '' });
    // Before the search, not after it.
    const kept = await lumenfront('front', 'brief.yaml', '--out', at('front.json'));
    expect(kept).toMatchObject({ status: 2, stdout: '' });
    // Out of a folder where nothing is installed the next commands name the program by its path.
    expect(first.stdout).toContain(`node ${command} report brief.yaml --channel front.json`);
    const timeless = (text: string) =>
      text
        .replaceAll(`${folder}/`, '')
        .replaceAll(`node ${command}`, 'npx lumenfront')
        .replace(/ in \d.* on \d+ thread.*/, '');
    expect(timeless(second.stdout)).toBe(timeless(first.stdout));
    const check = await lumenfront('check', 'brief.yaml', '--channel', at('front.json'), '--design', '1', '--fast');
    expect(check.stderr).toMatch(/reduced model taken from /);
  });

  it('trades what options ask for, as a brief does', { tags: 'long' }, async () => {
    const traded = ['--enlarge', 'conductance', '--against', 'strength-retained'];
    const { status, stdout } = await lumenfront('front', 'brief.yaml', ...traded, ...quick, '--json');
    expect(status).toBe(0);
    const { designs, search } = JSON.parse(stdout);
    expect(search.objective).toEqual({ size: 'conductance', cost: 'strengthRetained' });
    designs.slice(1).forEach((design: (typeof designs)[number], i: number) => {
      expect(design.conductance).toBeGreaterThan(designs[i].conductance);
      expect(design.strength.retained).toBeLessThan(designs[i].strength.retained);
    });
    const brief = starter
      .replace('enlarge: area', 'enlarge: conductance')
      .replace('against: peak', 'against: strength-retained');
    writeFileSync(at('traded.yaml'), brief);
    expect((await lumenfront('front', 'traded.yaml', ...quick, '--json')).stdout).toBe(stdout);
    expect((await lumenfront('front', 'brief.yaml', '--objective', 'strength')).status).toBe(2);
  });

  it('writes the documented names as one JSON document, the same to the last bit with 1 and 3 workers', {
    tags: 'long',
  }, async () => {
    const one = await lumenfront('front', 'brief.yaml', '--json', '--verify', '1', '--workers', '1');
    const unverified = JSON.parse(one.stdout, (key, value) =>
      key === 'meshed' || key === 'difference' ? undefined : value,
    );
    const other = await lumenfront('front', 'brief.yaml', '--json', '--verify', '0', '--workers', '3');
    expect(other.stdout).toBe(`${JSON.stringify(unverified, null, 2)}\n`);
    const front = JSON.parse(one.stdout);
    expect(front.designs.length).toBeGreaterThan(3);
    for (const design of front.designs) {
      for (const key of ['area', 'conductance', 'peak', 'wall', 'minEdgeRadius'])
        expect(design[key]).toBeGreaterThan(0);
      expect(design.family).toMatch(/^(ellipse|teardrop|spline)$/);
      expect(Object.keys(design.cases)).toEqual(['cured', 'pulled', 'limit']);
      expect(Object.keys(design.cases.cured)).toEqual(['peak', 'at', 'least']);
    }
    expect(front.designs.filter((design: object) => 'meshed' in design)).toHaveLength(1);
    expect(front.reference.area).toBeCloseTo(Math.PI * 0.4 ** 2, 6);
    // Hagen and Poiseuille: pi r^4 / 8. An ellipse: pi a^3 b^3 / (4 (a^2 + b^2)) (Shah & London, 1978).
    expect(front.reference.conductance / ((Math.PI * 0.4 ** 4) / 8)).toBeCloseTo(1, 9);
    for (const { conductance, parameters } of front.families.ellipse) {
      const [a, b] = [parameters.width / 2, parameters.height / 2];
      expect(conductance / ((Math.PI * a ** 3 * b ** 3) / (4 * (a ** 2 + b ** 2)))).toBeCloseTo(1, 9);
    }
    expect(front.search).toMatchObject({ seed: 1 });
    expect(front.search.runs.every(({ stop }: { stop: string }) => stop.length > 0)).toBe(true);
    expect(front.versions.lumenfront).toBeDefined();
  });

  it('finds another front with another seed', async () => {
    const { stdout } = await lumenfront('front', 'brief.yaml', ...quick, '--json', '--seed', '2');
    const peaksOf = (text: string) =>
      (JSON.parse(text) as { designs: { peak: number }[] }).designs.map(({ peak }) => peak);
    expect(peaksOf(stdout)).not.toEqual(peaksOf(readFileSync(at('front.json'), 'utf8')));
  });
});

describe('from a front to a checked drawing', () => {
  it('check gives what the front said, and a mesh that agrees', async () => {
    const { designs } = JSON.parse(readFileSync(at('front.json'), 'utf8'));
    const asked = ['--channel', at('front.json'), '--design', '2', '--json'];
    const { status, stdout } = await lumenfront('check', 'brief.yaml', ...asked);
    expect(status).toBe(0);
    const check = JSON.parse(stdout);
    expect(check.area).toBe(designs[1].area);
    expect(check.conductance).toBe(designs[1].conductance);
    expect(check.fast.cases).toEqual(designs[1].cases);
    for (const name of ['pull', 'cure'])
      expect(Object.keys(check.meshed.loads[name])).toEqual(expect.arrayContaining(['peak', 'at', 'least']));
    expect(check.meshed.error).toBeLessThan(0.005);
    expect(check.meshed.cases.limit.peak / check.fast.cases.limit.peak).toBeCloseTo(1, 2);
  });

  it('check takes points, and refuses what is no channel', async () => {
    const points = Array.from({ length: 64 }, (_, i) => {
      const s = (2 * Math.PI * i) / 64;
      return [0.8 * Math.cos(s), 2 + 0.5 * Math.sin(s)];
    });
    writeFileSync(at('points.json'), JSON.stringify({ points }));
    const { status, stdout } = await lumenfront('check', 'brief.yaml', '--channel', at('points.json'), '--fast');
    expect(status).toBe(0);
    expect(stdout).toContain('area 1.25');
    writeFileSync(at('large.json'), JSON.stringify({ points: points.map(([x, y]) => [9 * x!, y]) }));
    const large = await lumenfront('check', 'brief.yaml', '--channel', at('large.json'), '--fast');
    expect(large.status).toBe(2);
    expect(large.stderr).toMatch(
      /expected an outline inside the filler, received one that leaves it by .* mm; make it smaller/,
    );
  });

  it('check takes the reference of the brief where no channel is given', async () => {
    const { status, stdout, stderr } = await lumenfront('check', 'brief.yaml', '--fast', '--json');
    expect(status).toBe(0);
    // A circle of 0.8 mm.
    expect(JSON.parse(stdout).area).toBeCloseTo(Math.PI * 0.4 ** 2, 6);
    expect(stderr).toContain('no --channel: checks the reference of the brief');
    writeFileSync(at('open.yaml'), `${starter}\nchoices: { host.bendRadius: [5, 6] }\n`);
    const open = await lumenfront('check', 'open.yaml', '--fast');
    expect([open.status, open.stdout]).toEqual([2, '']);
    expect(open.stderr).toMatch(/^--channel: expected a channel with its choice of what the brief leaves open/);
    const unmeant = await lumenfront('check', 'brief.yaml', '--design', '2');
    expect(unmeant.status).toBe(2);
    expect(unmeant.stderr).toMatch(/--design: expected .* received no --channel; name what front wrote/);
  });

  it('draw and report take the file', async () => {
    const designs = ['--channel', at('front.json')];
    const drawn = await lumenfront('draw', 'brief.yaml', ...designs, '--design', '2', '--out', at('design.dxf'));
    expect(drawn.status).toBe(0);
    const reported = await lumenfront('report', 'brief.yaml', ...designs, '--fast', '--out', at('report.html'));
    expect(reported.status).toBe(0);
    expect(readdirSync(folder)).toEqual(expect.arrayContaining(['design.dxf', 'report.html']));
  });
});

describe('from an allowed stress to a channel', () => {
  it('pick keeps within the allowed peak, with the reference beside it', { tags: 'long' }, async () => {
    const { status, stdout } = await lumenfront('pick', 'brief.yaml', '--json', '--allow', '30', '--workers', '1');
    expect(status).toBe(0);
    const { design, families, reference, search } = JSON.parse(stdout);
    expect(design.peak).toBeLessThanOrEqual(30);
    expect(design.area).toBeGreaterThan(reference.area);
    expect(design.area).toBe(Math.max(...Object.values<{ area: number }>(families).map(({ area }) => area)));
    expect(search.seed).toBe(1);
  });

  it('pick says how closely it was missed where nothing stays within', async () => {
    const { status, stdout, stderr } = await lumenfront('pick', 'ellipses.yaml', '--allow', '1', '--workers', '1');
    expect([status, stdout]).toEqual([1, '']);
    expect(stderr).toMatch(
      /no channel stays within the allowed peak of 1 MPa: the least that was found is .* MPa \(.* %\) beyond/,
    );
  });
});
