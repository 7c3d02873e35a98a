import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { starterBrief } from '@lumenfront/core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

/** The built command, in a process of its own, as a user meets it. */
const command = fileURLToPath(new URL('../packages/cli/bin/lumenfront.js', import.meta.url));

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'lumenfront-end-to-end-'));
  writeFileSync(join(folder, 'brief.yaml'), starterBrief.replace(/evaluations: \d+/, 'evaluations: 400'));
});
afterAll(() => rmSync(folder, { recursive: true }));

function lumenfront(...argv: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [command, ...argv], {
    encoding: 'utf8',
    cwd: folder,
    env: { ...process.env, LUMENFRONT_CACHE: join(folder, 'cache') },
    maxBuffer: 64 * 1024 * 1024,
  });
  return { status, stdout, stderr };
}

describe('from a brief to a front', () => {
  it('prints plot, table, reference and caution; draws no progress into a pipe; takes the joint from the cache next time', () => {
    const first = lumenfront('front', 'brief.yaml', '--verify', '0', '--workers', '1', '--out', 'front.json');
    expect(first).toMatchObject({ status: 0, stderr: 'wrote front.json\n' });
    for (const text of ['peak [MPa]', 'best over all families', 'ref.', 'search: seed 1', 'qualified engineer'])
      expect(first.stdout).toContain(text);
    expect(readdirSync(join(folder, 'cache'))).toHaveLength(1);
    const again = ['--workers', '1', '--out', 'front.json', '--force', '--quiet'];
    const second = lumenfront('front', 'brief.yaml', '--verify', '0', ...again);
    expect(second).toMatchObject({ status: 0, stderr: '' });
    // Before the search, not after it.
    expect(lumenfront('front', 'brief.yaml', '--out', 'front.json')).toMatchObject({ status: 2, stdout: '' });
    const timeless = (text: string) => text.replace(/ in \d.* on \d+ thread.*/, '');
    expect(timeless(second.stdout)).toBe(timeless(first.stdout));
    expect(lumenfront('check', 'brief.yaml', '--channel', 'front.json', '--design', '1', '--fast').stderr).toMatch(
      /reduced model taken from .*cache/,
    );
  });

  it('trades what options ask for, as a brief does', () => {
    const traded = ['--enlarge', 'conductance', '--against', 'strength-retained'];
    const quick = ['--verify', '0', '--quiet', '--json', '--workers', '1'];
    const { status, stdout } = lumenfront('front', 'brief.yaml', ...traded, ...quick);
    expect(status).toBe(0);
    const { designs, search } = JSON.parse(stdout);
    expect(search.objective).toEqual({ size: 'conductance', cost: 'strengthRetained' });
    designs.slice(1).forEach((design: (typeof designs)[number], i: number) => {
      expect(design.conductance).toBeGreaterThan(designs[i].conductance);
      expect(design.strength.retained).toBeLessThan(designs[i].strength.retained);
    });
    const brief = readFileSync(join(folder, 'brief.yaml'), 'utf8')
      .replace('enlarge: area', 'enlarge: conductance')
      .replace('against: peak', 'against: strength-retained');
    writeFileSync(join(folder, 'traded.yaml'), brief);
    expect(lumenfront('front', 'traded.yaml', ...quick).stdout).toBe(stdout);
    expect(lumenfront('front', 'brief.yaml', '--objective', 'strength').status).toBe(2);
  });

  it('writes the documented names as one JSON document, the same to the last bit with 1, 2 and 4 workers', () => {
    const [one, ...others] = [1, 2, 4].map((workers) =>
      lumenfront('front', 'brief.yaml', '--json', '--verify', workers === 1 ? '1' : '0', '--workers', String(workers)),
    );
    const unverified = JSON.parse(one!.stdout, (key, value) =>
      key === 'meshed' || key === 'difference' ? undefined : value,
    );
    for (const other of others) expect(other!.stdout).toBe(`${JSON.stringify(unverified, null, 2)}\n`);
    writeFileSync(join(folder, 'designs.json'), one!.stdout);
    const front = JSON.parse(one!.stdout);
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

  it('finds another front with another seed', () => {
    const options = ['--json', '--verify', '0', '--workers', '1', '--seed', '2'];
    const peaksOf = (text: string) =>
      (JSON.parse(text) as { designs: { peak: number }[] }).designs.map(({ peak }) => peak);
    const first = peaksOf(readFileSync(join(folder, 'designs.json'), 'utf8'));
    expect(peaksOf(lumenfront('front', 'brief.yaml', ...options).stdout)).not.toEqual(first);
  });
});

describe('from a front to a checked drawing', () => {
  it('check gives what the front said, and a mesh that agrees', () => {
    const { designs } = JSON.parse(readFileSync(join(folder, 'designs.json'), 'utf8'));
    const { status, stdout } = lumenfront(
      'check',
      'brief.yaml',
      '--channel',
      'designs.json',
      '--design',
      '2',
      '--json',
    );
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

  it('check takes points, and refuses what is no channel', () => {
    const points = Array.from({ length: 64 }, (_, i) => {
      const s = (2 * Math.PI * i) / 64;
      return [0.8 * Math.cos(s), 2 + 0.4 * Math.sin(s)];
    });
    writeFileSync(join(folder, 'points.json'), JSON.stringify({ points }));
    const { status, stdout } = lumenfront('check', 'brief.yaml', '--channel', 'points.json', '--fast');
    expect(status).toBe(0);
    expect(stdout).toContain('area 1.005');
    writeFileSync(join(folder, 'large.json'), JSON.stringify({ points: points.map(([x, y]) => [9 * x!, y]) }));
    const large = lumenfront('check', 'brief.yaml', '--channel', 'large.json', '--fast');
    expect(large.status).toBe(2);
    expect(large.stderr).toMatch(
      /expected an outline inside the filler, received one that leaves it by .* mm; make it smaller/,
    );
  });

  it('draw and report take the file', () => {
    const drawn = lumenfront('draw', 'brief.yaml', '--channel', 'designs.json', '--design', '2', '--out', 'design.dxf');
    expect(drawn.status).toBe(0);
    const options = ['--fast', '--channel', 'designs.json', '--out', 'report.html'];
    const reported = lumenfront('report', 'brief.yaml', ...options);
    expect(reported.status).toBe(0);
    expect(readdirSync(folder)).toEqual(expect.arrayContaining(['design.dxf', 'report.html']));
  });
});

describe('from an allowed stress to a channel', () => {
  it('pick keeps within the allowed peak, with the reference beside it', () => {
    const { status, stdout } = lumenfront('pick', 'brief.yaml', '--json', '--allow', '30', '--workers', '1');
    expect(status).toBe(0);
    const { design, families, reference, search } = JSON.parse(stdout);
    expect(design.peak).toBeLessThanOrEqual(30);
    expect(design.area).toBeGreaterThan(reference.area);
    expect(design.area).toBe(Math.max(...Object.values<{ area: number }>(families).map(({ area }) => area)));
    expect(search.seed).toBe(1);
  });

  it('pick says how closely it was missed where nothing stays within', () => {
    const { status, stdout, stderr } = lumenfront('pick', 'brief.yaml', '--allow', '1', '--workers', '1');
    expect([status, stdout]).toEqual([1, '']);
    expect(stderr).toMatch(
      /no channel stays within the allowed peak of 1 MPa: the least that was found is .* MPa \(.* %\) beyond/,
    );
  });
});
