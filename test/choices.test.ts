import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { readPage, unpackBytes } from 'lumenfront/report';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { run } from '../packages/cli/src/run.js';

let folder: string;
const at = (name: string) => join(folder, name);

async function lumenfront(...argv: string[]) {
  const streams = { stdout: new PassThrough(), stderr: new PassThrough() };
  const exitCode = await run(argv, streams);
  return { exitCode, stdout: String(streams.stdout.read() ?? ''), stderr: String(streams.stderr.read() ?? '') };
}

/** A sheet needs no mesh of its surroundings. */
const sheet = `title: One or two in a sheet
host: { kind: plate }
loads: { farField: { sx: 1, sy: 1, txy: 0 } }
channel: { families: [ellipse], wall: 0.5, edgeRadius: 0.1, largest: { width: 2, height: 2 } }
choices: { channels.number: [1, 2] }
allow: 2.5
search: { evaluations: 400 }
`;
let told: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'lumenfront-choices-'));
  writeFileSync(at('sheet.yaml'), sheet);
  ({ stdout: told } = await lumenfront('front', at('sheet.yaml'), '--verify', '0', '--out', at('front.json')));
});
afterAll(() => rmSync(folder, { recursive: true }));

describe('a front of what a brief leaves open, on the command line', () => {
  const front = () => JSON.parse(readFileSync(at('front.json'), 'utf8'));
  const last = () => String(front().designs.length);

  it('tells each design with its choice, and the choices side by side', () => {
    expect(told).toMatch(/design +family +choice/);
    expect(told).toMatch(/1 +ellipse +number 1/);
    expect(told).toContain('what the brief leaves open, side by side:');
    expect(told).toMatch(/channels\.number +2\.5 MPa/);
    for (const { choice, largest } of front().choices)
      expect(told).toMatch(new RegExp(`^ +${choice['channels.number']} +${largest.area.toFixed(3)} `, 'm'));
    expect(told).toMatch(/Largest pair of channels found .* with channels\.number 2/);
  });

  it('writes the same file with any number of workers', { tags: 'long' }, async () => {
    const { exitCode } = await lumenfront(
      ...['front', at('sheet.yaml'), '--verify', '0', '--workers', '2', '--quiet', '--out', at('again.json')],
    );
    expect(exitCode).toBe(0);
    expect(readFileSync(at('again.json'), 'utf8')).toBe(readFileSync(at('front.json'), 'utf8'));
  });

  it('is what other commands find the section of a design by', async () => {
    const of = ['--channel', at('front.json'), '--design'];
    const check = async (design: string) =>
      JSON.parse((await lumenfront('check', at('sheet.yaml'), ...of, design, '--fast', '--json')).stdout);
    expect((await check('1')).pair).toBeUndefined();
    const two = await check(last());
    expect(two.pair.pitch).toBeGreaterThan(2);
    expect(two.fast.peak).toBeCloseTo(front().designs.at(-1).peak, 6);
    const { stdout: delivered } = await lumenfront('deliver', at('sheet.yaml'), ...of, last());
    expect(delivered).toContain('Channels side by side in parallel');
    const { stdout: drawn } = await lumenfront('draw', at('sheet.yaml'), ...of, last(), '--format', 'svg');
    expect(drawn).toContain('two channels, each of area');
    const { family, parameters } = front().designs[0];
    writeFileSync(at('one.json'), JSON.stringify({ family, parameters, choice: { 'channels.number': 1 } }));
    expect((await lumenfront('check', at('sheet.yaml'), '--channel', at('one.json'), '--fast')).exitCode).toBe(0);
    writeFileSync(at('none.json'), JSON.stringify({ family, parameters }));
    const { exitCode, stderr } = await lumenfront('check', at('sheet.yaml'), '--channel', at('none.json'), '--fast');
    expect(exitCode).toBe(2);
    expect(stderr).toContain('a channel with its choice of what the brief leaves open: channels.number');
  });

  it('makes a report of the choice of one design, which tells of the others', async () => {
    const of = [
      'report',
      at('sheet.yaml'),
      '--channel',
      at('front.json'),
      '--fast',
      '--force',
      '--out',
      at('page.html'),
    ];
    expect((await lumenfront(...of, '--design', '1')).exitCode).toBe(0);
    const page = readFileSync(at('page.html'), 'utf8');
    // The page by itself would fill a terminal.
    expect(/This report shows [^,]*, one of 2 choices/.exec(page)?.[0]).toBe(
      'This report shows channels.number 1, one of 2 choices',
    );
    // Numbers that follow each other are told as a range.
    expect(page).toMatch(/designs of the front \((\d+( to \d+)?(, )?)+\), numbered from 1 here/);
    expect(page).not.toMatch(/\(1, 2, 3/);
    const { lines, designs } = await readPage(/id="report-data">(.*?)</.exec(page)![1]!, unpackBytes);
    expect(lines.map(({ name, shown }) => [name, shown])).toEqual([
      ['channels.number 1', true],
      ['channels.number 2', false],
    ]);
    for (const [c, { largest }] of front().choices.entries()) {
      // A choice's own front is all of it; what the front of all has of it lies on its line.
      const { place, caption } = lines[c]!.points.find((one) => one.place[0] === Number(largest.area.toPrecision(7)))!;
      expect(place[1]).toBeCloseTo(largest.peak, 4);
      expect(caption).toContain(`choice ${c + 1}, channels.number ${c + 1}, design`);
      expect(page.includes(`<td>${largest.area.toFixed(3)}</td><td>${largest.peak.toFixed(1)}</td>`)).toBe(true);
    }
    expect(designs[0]!.caption).toContain('; channels.number 1');
    const { stderr } = await lumenfront(...of, '--design', '1', '--around', last());
    expect(stderr).toContain('--around: expected designs of the same choice, channels.number 1');
  });

  it('is picked from, and refused where one section is asked for', async () => {
    const { stdout } = await lumenfront('pick', at('sheet.yaml'), '--json');
    expect(JSON.parse(stdout).design.choice).toEqual({ 'channels.number': 2 });
    for (const command of [
      ['pick', at('sheet.yaml'), '--made'],
      ['scatter', at('sheet.yaml')],
    ]) {
      const { exitCode, stderr } = await lumenfront(...command);
      expect(exitCode).toBe(2);
      expect(stderr).toContain('expected a brief that leaves nothing open, received one with 2 choices');
    }
  });
});
