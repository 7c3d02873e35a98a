import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { Command } from 'commander';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { sampleDesign, sampleFront, samplePick } from '../../../../test/fixtures/results.js';
import { readPage, unpackBytes } from '../report/index.js';
import { preferredDesign } from '../show/index.js';
import { addCommonOptions } from './common-options.js';
import { define } from './report.js';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'lumenfront-report-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

const at = (name: string) => join(folder, name);

/** Without fields, which take seconds. */
const report = (...argv: string[]) => reportWith('--fast', ...argv);

async function reportWith(...argv: string[]) {
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

const pageOf = (html: string) => readPage(/id="report-data">(.*?)<\/script>/s.exec(html)![1]!, unpackBytes);

const design = (width: number, peak: number) => sampleDesign(width, 1, peak);
const front = sampleFront([design(1, 25), design(1.5, 30), design(2, 40)]);
const pick = samplePick(design(1, 20));

describe('report', () => {
  it('writes one page of a front', async () => {
    const { stdout } = await report('--channel', result(front), '--out', at('report.html'));
    expect(stdout).toBe(`wrote ${at('report.html')}\n`);
    const html = readFileSync(at('report.html'), 'utf8');
    for (const text of [
      'Stiffener of a small hull',
      'bendRadius: 8',
      'front stalled',
      'lumenfront 0.1.0',
      'Largest channel found that stays within the allowed 32 MPa: design 2',
      'show 3',
    ])
      expect(html).toContain(text);
    // Ellipses of 1 x 1, 1.5 x 1 and 2 x 1 mm: pi a^3 b^3 / (4 (a^2 + b^2)).
    const data = await pageOf(html);
    expect(data.picked).toBe(1);
    const conductances = data.designs.map(({ conductance }) => conductance);
    conductances.forEach((value, i) => {
      const a = [0.5, 0.75, 1][i]!;
      expect(value / ((Math.PI * a ** 3 * 0.5 ** 3) / (4 * (a ** 2 + 0.5 ** 2)))).toBeCloseTo(1, 6);
    });
    expect(conductances).toHaveLength(3);
    expect(html).toContain('flow / reference');
  });

  it('shows some of a long front, with their numbers', { tags: 'long' }, async () => {
    const long = sampleFront(Array.from({ length: 140 }, (_, k) => design(1 + 0.005 * k, 25 + 0.1 * k)));
    await report('--channel', result(long), '--out', at('report.html'), '--design', '8');
    const html = readFileSync(at('report.html'), 'utf8');
    expect(html).toContain('of 140 channel designs');
    expect(html).toContain('show 140');
    const { designs, picked } = await pageOf(html);
    expect(designs[picked]!.name).toBe('design 8');
    expect(designs.length).toBeGreaterThanOrEqual(120);
    expect(designs.length).toBeLessThan(130);
    expect(designs.map(({ name }) => name).slice(0, 2)).toEqual(['design 1', 'design 2']);
    expect(designs.at(-1)!.name).toBe('design 140');
  });

  it('solves the stress around the design shown first, those asked for, the reference and without channel', {
    tags: 'long',
  }, async () => {
    const designs = result(sampleFront([design(1, 25), design(1.2, 26), design(1.5, 27)]));
    await reportWith('--channel', designs, '--design', '1', '--around', '3', '--out', at('report.html'));
    const data = await pageOf(readFileSync(at('report.html'), 'utf8'));
    for (const cells of [data.designs[0]!.field, data.designs[2]!.field, data.reference!.field, data.fields!.without]) {
      expect(Object.keys(cells!)).toEqual(['largest', 'least', 'shear']);
      expect(Object.keys(cells!.shear)).toEqual(['cured', 'pulled', 'limit']);
      expect(cells!.largest.limit).toHaveLength(data.fields!.columns * data.fields!.rows);
    }
    expect(data.designs[1]!.field).toBeUndefined();
  });

  it('sets the flow of each design against the reference', { tags: 'long' }, async () => {
    const reference = sampleDesign(1, 1, 41);
    await report('--channel', result({ ...front, reference }), '--out', at('report.html'));
    const html = readFileSync(at('report.html'), 'utf8');
    expect(html).toMatch(
      /show 1<\/button><\/td><td class="words">ellipse<\/td><td>0\.7854<\/td><td class="wide">1\.00<\/td><td>25\.0/,
    );
    // An ellipse 2 : 1 on the circle: 2 k^3 / (k^2 + 1) of its flow, k = 2.
    expect(html).toMatch(/<td>1\.571<\/td><td class="wide">3\.20<\/td>/);
    await expect(
      report(
        '--channel',
        result({ ...front, reference: { ...reference, conductance: 'much' } }),
        '--out',
        at('x.html'),
      ),
    ).rejects.toThrow(/reference\.conductance: expected a number in mm⁴, received "much"/);
  });

  it('draws a front on the axes of what it trades', { tags: 'long' }, async () => {
    const search = { ...front.search, objective: { size: 'flow', cost: 'strengthRetained' } };
    const strength = { retained: 0.25, loadFactor: 1, worstCase: 'limit', place: 'edge', at: [0, 2.4] };
    const reference = { ...front.reference, conductance: 0.02, strength };
    const content = result({ ...front, search, reference });
    await report('--channel', content, '--out', at('report.html'), '--pictures', folder);
    const html = readFileSync(at('report.html'), 'utf8');
    const data = await pageOf(html);
    expect(data.axes).toEqual({ x: 'conductance, mm⁴', y: 'strength retained, %' });
    expect(data.limit).toBeUndefined();
    expect(data.reference!.place).toEqual([0.02, 25]);
    for (const { place, caption, conductance, strength } of data.designs) {
      expect(place[0]).toBe(conductance);
      expect(place[1]).toBeCloseTo(100 * strength!.retained, 1);
      expect(caption).toMatch(/^design \d: ellipse, 0\.0\d+ mm⁴, strength retained \d+\.\d %$/);
    }
    expect(html).toContain('conductance against strength retained');
    expect(html).toContain('up is stronger');
    expect(html).not.toContain('allowed peak, ');
    expect(readFileSync(at('front.svg'), 'utf8')).toContain('strength retained, %');
    const wrong = result({ ...front, search: { ...search, objective: { size: 'weight', cost: 'peak' } } });
    await expect(report('--channel', wrong, '--out', at('x.html'))).rejects.toThrow(
      /search\.objective\.size: expected one of area, conductance/,
    );
  });

  it('shows the design that is named, and the one of a pick', { tags: 'long' }, async () => {
    await report('--channel', result(front), '--out', at('report.html'), '--design', '3');
    expect((await pageOf(readFileSync(at('report.html'), 'utf8'))).picked).toBe(2);
    await report('--channel', result(pick), '--out', at('pick.html'));
    expect(readFileSync(at('pick.html'), 'utf8')).toContain('The largest channel within');
  });

  it('writes the pictures beside it', { tags: 'long' }, async () => {
    await report('--channel', result(front), '--out', at('report.html'), '--pictures', folder, '--json');
    for (const name of ['front.svg', 'outlines.svg', 'joint.svg'])
      expect(readFileSync(at(name), 'utf8')).toMatch(/^<svg .*<\/svg>$/s);
  });

  it('makes the folder of the pictures where there is none', { tags: 'long' }, async () => {
    await report('--channel', result(front), '--out', at('report.html'), '--pictures', at('new/pictures'));
    expect(existsSync(at('new/pictures/joint.svg'))).toBe(true);
  });

  it('judges the designs again: stress along the edge, strength, where failure starts; says that they were not found for the brief', {
    tags: 'long',
  }, async () => {
    await report('--channel', result(front), '--out', at('report.html'), '--pictures', folder);
    const html = readFileSync(at('report.html'), 'utf8');
    expect(html).toContain('The result was not found for this brief');
    const data = await pageOf(html);
    for (const { outline, edge, strength, tables } of data.designs) {
      expect(edge!.worstCase).toBe('limit');
      expect(Object.keys(edge!.hoop)).toEqual(['cured', 'pulled', 'limit']);
      expect(edge!.hoop.limit).toHaveLength(outline.length);
      expect(strength!.retained).toBeGreaterThan(0);
      expect(strength!.retained).toBeLessThan(1.05);
      expect(tables!.map(({ heading }) => heading)).toEqual([
        'Strength of the joint',
        'Fatigue',
        expect.stringMatching(/^Repair where the joint fails first: .+, case limit$/),
        'Load factor of each place, sound and repaired by itself, case limit',
      ]);
      expect(tables![0]!.rows.map(([name]) => name)).toEqual(['cured', 'pulled', 'limit']);
    }
    const joint = readFileSync(at('joint.svg'), 'utf8');
    expect(joint).toContain('first failure');
    expect(joint).toContain('hoop stress, MPa');
    expect(html).toMatch(/<th scope="col" class="wide">failure starts<\/th>/);
  });

  it('sets the mesh beside the fast model where the front carries it', { tags: 'long' }, async () => {
    const cases = { limit: { peak: 25.1, at: [0, 2.5], least: -3, error: 0.002 } };
    const worst = { under: 'case limit', fast: 25, meshed: 25.1, difference: -0.004, error: 0.002 };
    const difference = { loads: {}, cases: { limit: -0.004 }, worst, holds: true };
    const meshed = { meshed: { loads: {}, cases, error: 0.002, meshes: [] }, difference };
    await report(
      '--channel',
      result({ ...front, designs: [{ ...design(1, 25), ...meshed }, design(2, 40)] }),
      '--out',
      at('report.html'),
    );
    const html = readFileSync(at('report.html'), 'utf8');
    const rows = (await pageOf(html)).designs[0]!.tables!.flatMap((table) => table.rows);
    expect(rows).toContainEqual(['limit', '25.00', '25.10', '-0.40', '0.20']);
    expect(html).toMatch(/1 of 2 designs were solved by the independent mesh as well: .* at most 0\.40 %/);
    const broken = { ...design(1, 25), difference: { ...difference, cases: { limit: 'small' } } };
    await expect(
      report('--channel', result({ ...front, designs: [broken] }), '--out', at('broken.html')),
    ).rejects.toThrow(/designs\[0\]\.difference\.cases\.limit: expected a number, received "small"/);
  });

  it('reports a design without wall, as on a plate', { tags: 'long' }, async () => {
    await report(
      '--channel',
      result({ ...front, designs: [{ ...design(1, 20), wall: null }] }),
      '--out',
      at('report.html'),
    );
    expect(readFileSync(at('report.html'), 'utf8')).toMatch(/<td>20\.0<\/td><td class="wide">–<\/td>/);
  });

  it('reports a front without designs', { tags: 'long' }, async () => {
    await report('--channel', result({ ...front, designs: [] }), '--out', at('report.html'), '--pictures', folder);
    expect(readFileSync(at('report.html'), 'utf8')).toContain('No design meets the brief');
    expect(existsSync(at('joint.svg'))).toBe(false);
  });

  it.each([
    [[], [], /result\.json: result: expected a result of front or pick, received an empty list/],
    [{}, [], /result: expected a result of front or pick, received an empty mapping/],
    [{ ...front, kind: 'check' }, [], /expected a result of front or pick, received a result of check/],
    [
      { ...front, formatVersion: 2 },
      [],
      /formatVersion: expected 1, received 2; read it with the version of lumenfront/,
    ],
    [
      { ...front, designs: [{ ...design(1, 20), area: 'x' }] },
      [],
      /designs\[0\]\.area: expected a number in mm², received "x"/,
    ],
    [
      { ...front, designs: [{ ...design(1, 20), cases: { limit: {} } }] },
      [],
      /cases\.limit\.peak: expected a number in MPa, received nothing/,
    ],
    [
      { ...front, search: { ...front.search, runs: [1] } },
      [],
      /search\.runs\[0\]: expected a mapping of family, method/,
    ],
    [front, ['--design', '4'], /--design: expected 1 to 3/],
    [front, ['--around', '1,4'], /--around: expected 1 to 3/],
    [{ ...front, designs: [{ ...design(1, 20), parameters: { y: 2 } }] }, [], /parameters\.width: expected/],
  ])('refuses %j with %j', async (content, argv, says) => {
    await expect(report('--channel', result(content), '--out', at('report.html'), ...argv)).rejects.toThrow(says);
    expect(existsSync(at('report.html'))).toBe(false);
  });
});

describe('the design shown first', () => {
  it.each([
    [32, 1],
    [50, 2],
    [10, 0],
  ])('at %d MPa allowed is number %d', (allow, index) => {
    expect(preferredDesign(front.designs, allow)).toBe(index);
  });
});
