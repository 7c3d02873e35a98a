import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { Command } from 'commander';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import type { PageData } from '../report/data.js';
import { addCommonOptions } from './common-options.js';
import { define } from './report.js';
import { preferredDesign } from './report-request.js';

/** The starter brief's joint is solved once for all tests. */
let cache: string;
beforeAll(() => {
  cache = mkdtempSync(join(tmpdir(), 'lumenfront-report-cache-'));
  vi.stubEnv('LUMENFRONT_CACHE', cache);
});
afterAll(() => {
  vi.unstubAllEnvs();
  rmSync(cache, { recursive: true });
});

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'lumenfront-report-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

const at = (name: string) => join(folder, name);

async function report(...argv: string[]) {
  const streams = { stdout: new PassThrough(), stderr: new PassThrough() };
  const command = new Command('report').exitOverride().configureOutput({ writeErr: () => {} });
  define(command, streams);
  addCommonOptions(command);
  await command.parseAsync(argv, { from: 'user' });
  return { stdout: String(streams.stdout.read() ?? ''), stderr: String(streams.stderr.read() ?? '') };
}

function result(content: unknown): string {
  writeFileSync(at('result.json'), JSON.stringify(content));
  return at('result.json');
}

const design = (width: number, peak: number) => ({
  family: 'ellipse',
  parameters: { y: 2, width, height: 1 },
  area: (Math.PI * width) / 4,
  peak,
  cases: { limit: { peak, at: [0, 2.5], least: -3 } },
  wall: 0.5,
  minEdgeRadius: 0.3,
});

const front = {
  designs: [design(1, 25), design(1.5, 30), design(2, 40)],
  reference: { area: 0.5, peak: 41 },
  search: { seed: 7, evaluations: 20000, runs: [{ stop: 'front stalled' }] },
  versions: { lumenfront: '0.1.0' },
};

describe('report', () => {
  it('writes one page of a front', async () => {
    const { stdout } = await report('--result', result(front), '--out', at('report.html'));
    expect(stdout).toBe(`wrote ${at('report.html')}\n`);
    const html = readFileSync(at('report.html'), 'utf8');
    for (const text of ['Stiffener of a small hull', 'bendRadius: 8', 'front stalled', 'lumenfront 0.1.0', 'show 3'])
      expect(html).toContain(text);
    expect(html).toContain('"picked":1');
    // Ellipses of 1 x 1, 1.5 x 1 and 2 x 1 mm: pi a^3 b^3 / (4 (a^2 + b^2)).
    const conductances = [...html.matchAll(/"conductance":([\d.]+)/g)].map(([, value]) => Number(value));
    conductances.forEach((value, i) => {
      const a = [0.5, 0.75, 1][i]!;
      expect(value / ((Math.PI * a ** 3 * 0.5 ** 3) / (4 * (a ** 2 + 0.5 ** 2)))).toBeCloseTo(1, 6);
    });
    expect(conductances).toHaveLength(3);
    expect(html).not.toContain('flow / reference');
  });

  it('sets the flow of each design against the reference where the result says what that carries', async () => {
    const conductance = (Math.PI * 0.5 ** 4) / 8;
    const reference = { ...front.reference, conductance };
    await report('--result', result({ ...front, reference }), '--out', at('report.html'));
    const html = readFileSync(at('report.html'), 'utf8');
    expect(html).toContain('flow / reference');
    expect(html).toMatch(/show 1<\/button><\/td><td>ellipse<\/td><td>0\.7854<\/td><td>1\.00<\/td><td>25\.0/);
    // An ellipse 2 : 1 on the circle: 2 k^3 / (k^2 + 1) of its flow, k = 2.
    expect(html).toMatch(/<td>1\.571<\/td><td>3\.20<\/td>/);
    await expect(
      report('--result', result({ ...front, reference: { ...reference, conductance: 'much' } }), '--out', at('x.html')),
    ).rejects.toThrow(/reference/);
  });

  it('draws a front on the axes of what it trades', async () => {
    const search = { ...front.search, objective: { size: 'flow', cost: 'strengthRetained' } };
    const reference = { ...front.reference, conductance: 0.02, strength: { retained: 0.25, loadFactor: 1 } };
    const content = result({ ...front, search, reference });
    await report('--result', content, '--out', at('report.html'), '--pictures', folder);
    const html = readFileSync(at('report.html'), 'utf8');
    const data = JSON.parse(/id="report-data">(.*?)<\/script>/s.exec(html)![1]!) as PageData;
    expect(data.axes).toEqual({ x: 'conductance, mm⁴', y: 'strength retained, %' });
    expect(data.limit).toBeUndefined();
    expect(data.reference!.place).toEqual([0.02, 25]);
    for (const { place, caption, conductance, strength } of data.designs) {
      expect(place[0]).toBe(conductance);
      expect(place[1]).toBeCloseTo(100 * strength!.retained, 1);
      expect(caption).toMatch(/^ellipse, 0\.0\d+ mm⁴, strength retained \d+\.\d %$/);
    }
    expect(html).toContain('conductance against strength retained');
    expect(html).toContain('up is stronger');
    expect(html).not.toContain('allowed peak, ');
    expect(readFileSync(at('front.svg'), 'utf8')).toContain('strength retained, %');
    const wrong = result({ ...front, search: { ...search, objective: { size: 'weight', cost: 'peak' } } });
    await expect(report('--result', wrong, '--out', at('x.html'))).rejects.toThrow(/search/);
  });

  it('shows the design that is named, and the one of a pick', async () => {
    await report('--result', result(front), '--out', at('report.html'), '--design', '3');
    expect(readFileSync(at('report.html'), 'utf8')).toContain('"picked":2');
    await report('--result', result({ ...front, designs: undefined, design: design(1, 20) }), '--out', at('pick.html'));
    expect(readFileSync(at('pick.html'), 'utf8')).toContain('One channel design');
  });

  it('writes the pictures beside it', async () => {
    await report('--result', result(front), '--out', at('report.html'), '--pictures', folder, '--json');
    for (const name of ['front.svg', 'outlines.svg', 'joint.svg'])
      expect(readFileSync(at(name), 'utf8')).toMatch(/^<svg .*<\/svg>$/s);
  });

  it('makes the folder of the pictures where there is none', async () => {
    await report('--result', result(front), '--out', at('report.html'), '--pictures', at('new/pictures'));
    expect(existsSync(at('new/pictures/joint.svg'))).toBe(true);
  });

  it('judges the designs again: stress along the edge, strength, where failure starts', async () => {
    await report('--result', result(front), '--out', at('report.html'), '--pictures', folder);
    const html = readFileSync(at('report.html'), 'utf8');
    const data = JSON.parse(/id="report-data">(.*?)<\/script>/s.exec(html)![1]!) as PageData;
    for (const { outline, edge, strength, tables } of data.designs) {
      expect(edge!.caseName).toBe('limit');
      expect(edge!.hoop).toHaveLength(outline.length);
      expect(strength!.retained).toBeGreaterThan(0);
      expect(strength!.retained).toBeLessThan(1.05);
      expect(tables!.map(({ heading }) => heading)).toEqual(['Strength of the joint', 'Fatigue']);
      expect(tables![0]!.rows.map(([name]) => name)).toEqual(['cured', 'pulled', 'limit']);
    }
    const joint = readFileSync(at('joint.svg'), 'utf8');
    expect(joint).toContain('first failure');
    expect(joint).toContain('hoop stress, MPa');
    expect(html).toMatch(/<th scope="col">failure starts<\/th>/);
  });

  it('says so where the result was not found for the brief', async () => {
    await report('--result', result(front), '--out', at('report.html'));
    expect(readFileSync(at('report.html'), 'utf8')).toContain('The result was not found for this brief');
  });

  it('sets the mesh beside the fast model where the front carries it', async () => {
    const meshed = {
      meshed: { cases: { limit: { peak: 25.1, at: [0, 2.5], least: -3, error: 0.002 } } },
      difference: { cases: { limit: -0.004 } },
    };
    await report(
      '--result',
      result({ ...front, designs: [{ ...design(1, 25), ...meshed }, design(2, 40)] }),
      '--out',
      at('report.html'),
    );
    const html = readFileSync(at('report.html'), 'utf8');
    expect(html).toContain('["limit","25.00","25.10","-0.40","0.20"]');
    expect(html).toMatch(/1 of 2 designs were solved by the independent mesh as well: .* at most 0\.40 %/);
    const broken = { ...design(1, 25), difference: { cases: { limit: 'small' } } };
    await expect(
      report('--result', result({ ...front, designs: [broken] }), '--out', at('broken.html')),
    ).rejects.toThrow(/designs\[0\]\.difference: expected differences by case/);
  });

  it('reports a design without wall, as on a plate', async () => {
    await report('--result', result({ designs: [{ ...design(1, 20), wall: null }] }), '--out', at('report.html'));
    expect(readFileSync(at('report.html'), 'utf8')).toMatch(/<td>20\.0<\/td><td>–<\/td>/);
  });

  it('reports a front without designs', async () => {
    await report('--result', result({ designs: [] }), '--out', at('report.html'), '--pictures', folder);
    expect(readFileSync(at('report.html'), 'utf8')).toContain('No design meets the brief');
    expect(existsSync(at('joint.svg'))).toBe(false);
  });

  it.each([
    [[], [], /result\.json: result: expected an object/],
    [{}, [], /designs: expected a list of designs, received nothing/],
    [{ designs: [{ ...design(1, 20), area: -1 }] }, [], /designs\[0\]\.area: expected an area in mm², received -1/],
    [{ designs: [{ ...design(1, 20), cases: { limit: {} } }] }, [], /designs\[0\]\.cases: expected peak, at and least/],
    [{ ...front, search: { runs: [1] } }, [], /search: expected seed/],
    [front, ['--design', '4'], /--design: expected 1 to 3/],
    [{ designs: [{ ...design(1, 20), parameters: { y: 2 } }] }, [], /parameters\.width: expected/],
  ])('refuses %j with %j', async (content, argv, says) => {
    await expect(report('--result', result(content), '--out', at('report.html'), ...argv)).rejects.toThrow(says);
    expect(existsSync(at('report.html'))).toBe(false);
  });
});

describe('the design shown first', () => {
  it.each([
    [32, 1],
    [50, 2],
    [10, 0],
  ])('at %d MPa allowed is number %d', (allow, index) => {
    expect(preferredDesign(front.designs as never, allow)).toBe(index);
  });
});
