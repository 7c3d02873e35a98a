import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { markOf, readBrief, starterBrief } from '@lumenfront/core';
import { Command } from 'commander';
import type { ILwpolylineEntity, ISplineEntity } from 'dxf-parser';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  csvExtent,
  entitiesOf,
  pathExtent,
  pointsExtent,
  splineExtent,
} from '../../../../test/fixtures/drawing-readers.js';
import { sampleDesign, sampleFront, samplePick } from '../../../../test/fixtures/results.js';
import { addCommonOptions } from './common-options.js';
import { define } from './draw.js';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'lumenfront-draw-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

const at = (name: string) => join(folder, name);

async function draw(...argv: string[]) {
  const streams = { stdout: new PassThrough(), stderr: new PassThrough() };
  const command = new Command('draw').exitOverride().configureOutput({ writeErr: () => {} });
  define(command, streams);
  addCommonOptions(command);
  await command.parseAsync(argv, { from: 'user' });
  return { stdout: String(streams.stdout.read() ?? ''), stderr: String(streams.stderr.read() ?? '') };
}

function channel(content: unknown): string {
  writeFileSync(at('channel.json'), JSON.stringify(content));
  return at('channel.json');
}

/** In the starter brief's filler, whose bend radius is 8 mm. */
const ellipse = { family: 'ellipse', parameters: { y: 2, width: 1.6, height: 0.8 } };
const design = { ...sampleDesign(1.6, 0.8, 30), parameters: ellipse.parameters };
const area = Math.PI * 0.8 * 0.4;

const points = {
  points: Array.from({ length: 64 }, (_, i) => {
    const s = (2 * Math.PI * i) / 64;
    return [0.8 * Math.cos(s), 2 + 0.4 * Math.sin(s)];
  }),
};

describe('draw', () => {
  it.each([
    ['dxf', (text: string) => pointsExtent(entitiesOf<ILwpolylineEntity>(text, 'CHANNEL', 'LWPOLYLINE')[0]!.vertices)],
    ['svg', pathExtent],
    ['csv', csvExtent],
  ] as const)('writes the design as %s', async (format, read) => {
    const { stdout } = await draw('--channel', channel(ellipse), '--format', format);
    expect(Math.abs(read(stdout).area / area - 1)).toBeLessThan(1e-4);
  });

  it('writes a spline when asked', async () => {
    const { stdout } = await draw('--channel', channel(ellipse), '--format', 'dxf', '--curve', 'spline');
    const [spline] = entitiesOf<ISplineEntity>(stdout, 'CHANNEL', 'SPLINE');
    expect(Math.abs(splineExtent(spline!).area / area - 1)).toBeLessThan(1e-4);
  });

  it('takes points, a pick and a design of a front', async () => {
    const front = sampleFront([sampleDesign(1, 1, 20), design]);
    for (const [content, ...more] of [[points], [samplePick(design)], [front, '--design', '2']] as const) {
      const { stdout } = await draw('--channel', channel(content), '--format', 'csv', ...more);
      expect(Math.abs(csvExtent(stdout).area / area - 1)).toBeLessThan(1e-4);
    }
  });

  it('refuses a design of another brief, says what differs, and goes on when told to', async () => {
    const brief = markOf(await readBrief(starterBrief.replace('bendRadius: 8', 'bendRadius: 7')));
    const front = channel({ ...sampleFront([design]), brief });
    const argv = ['--channel', front, '--design', '1', '--format', 'csv'];
    await expect(draw(...argv)).rejects.toThrow(
      /channel\.json: expected a result of this brief, .*host\.bendRadius is 7 there and 8 in the brief; .* go on with --force/,
    );
    const { stderr, stdout } = await draw(...argv, '--force');
    expect(stderr).toMatch(/note: .* is a result of another brief: host\.bendRadius is 7 there/);
    expect(Math.abs(csvExtent(stdout).area / area - 1)).toBeLessThan(1e-4);
    const own = channel({ ...sampleFront([design]), brief: markOf(await readBrief(starterBrief)) });
    expect((await draw('--channel', own, '--design', '1', '--format', 'csv')).stderr).not.toContain('another brief');
  });

  it('takes the format from the ending, and says what it wrote', async () => {
    const { stdout } = await draw('--channel', channel(ellipse), '--out', at('tip.DXF'), '--chord-error', '0.0001');
    expect(readFileSync(at('tip.DXF'), 'utf8')).toContain('LWPOLYLINE');
    expect(stdout).toMatch(/wrote .*tip\.DXF: area 1\.0053 mm², perimeter 3\.875\d mm/);
    const { stdout: json } = await draw('--channel', channel(ellipse), '--out', at('tip.svg'), '--json');
    expect(JSON.parse(json)).toMatchObject({ format: 'svg', file: at('tip.svg') });
  });

  it('notes a design that the brief would not have', async () => {
    const thin = { family: 'ellipse', parameters: { y: 0.9, width: 1.6, height: 1.6 } };
    expect((await draw('--channel', channel(thin), '--format', 'csv')).stderr).toMatch(/the brief asks for 0\.2 and/);
    expect((await draw('--channel', channel(thin), '--format', 'csv', '--quiet')).stderr).toBe('');
    const sound = { family: 'ellipse', parameters: { y: 2, width: 1.6, height: 1 } };
    expect((await draw('--channel', channel(sound), '--format', 'csv')).stderr).toBe('');
  });

  it.each([
    [ellipse, [], /--format: expected a format: dxf, svg, csv, vtu, msh, received neither/],
    [ellipse, ['--out', 'channel.pdf'], /--out: expected a format/],
    [ellipse, ['--format', 'csv', '--design', '1'], /expected a front, with several designs/],
    [sampleFront([design]), ['--format', 'csv'], /--design 1 to 1, received no --design/],
    [sampleFront([design]), ['--format', 'csv', '--design', '2'], /received --design 2/],
    [sampleFront([]), ['--format', 'csv', '--design', '1'], /expected a front with a design/],
    [[1], ['--format', 'csv'], /expected \{ "family"/],
    [{ family: 'ellipse' }, ['--format', 'csv'], /received \{"family":"ellipse"\}/],
    [{ ...ellipse, family: 'star' }, ['--format', 'csv'], /received "star"/],
    [{ points: [[0, 0]] }, ['--format', 'csv'], /at least 32 points/],
    [{ family: 'ellipse', parameters: { y: 1, width: 4, height: 4 } }, ['--format', 'csv'], /leaves it by 1\.00 mm/],
  ])('refuses %j with %j', async (content, argv, says) => {
    await expect(draw('--channel', channel(content), ...argv)).rejects.toThrow(says);
  });

  it('refuses a file that is no JSON', async () => {
    writeFileSync(at('channel.json'), '{ family: ellipse');
    await expect(draw('--channel', at('channel.json'), '--format', 'csv')).rejects.toThrow(
      /expected a channel as JSON, received .*; give a file/,
    );
  });
});

describe('draw of two channels', () => {
  it('holds both, the left one as the mirror image', async () => {
    const file = at('pair.yaml');
    const text = starterBrief.replace(/\n {2}reference:[\s\S]*?\n\n/, '\n\n');
    writeFileSync(file, `${text}\nchannels: { number: 2 }\n`);
    const right = { family: 'ellipse', parameters: { x: 0.8, y: 2, width: 0.9, height: 0.8, turn: 0 } };
    const { stdout: dxf } = await draw(file, '--channel', channel(right), '--format', 'dxf');
    const outlines = entitiesOf<ILwpolylineEntity>(dxf, 'CHANNEL', 'LWPOLYLINE').map(({ vertices }) => vertices);
    expect(outlines).toHaveLength(2);
    const [first, second] = outlines.map(pointsExtent);
    expect(first!.area).toBeCloseTo(Math.PI * 0.45 * 0.4, 3);
    expect(second!.area).toBeCloseTo(first!.area, 9);
    const mean = (vertices: readonly { x: number }[]) => vertices.reduce((sum, { x }) => sum + x, 0) / vertices.length;
    expect(mean(outlines[0]!)).toBeCloseTo(0.8, 2);
    expect(mean(outlines[1]!)).toBeCloseTo(-0.8, 2);
    expect(dxf).toContain('two channels, each of area');
    const { stdout: csv } = await draw(file, '--channel', channel(right), '--format', 'csv');
    const lines = csv.trim().split('\n');
    expect(lines[0]).toBe('x_mm,y_mm,channel');
    expect(lines.filter((line) => line.endsWith(',left'))).toHaveLength((lines.length - 1) / 2);
    const { stdout: svg } = await draw(file, '--channel', channel(right), '--format', 'svg');
    expect(/<path id="CHANNEL" d="([^"]*)"/.exec(svg)![1]!.split('Z')).toHaveLength(3);
    const across = { ...right, parameters: { ...right.parameters, x: 0.2 } };
    await expect(draw(file, '--channel', channel(across), '--format', 'svg')).rejects.toThrow(
      /of an even number of channels the one right of x = 0/,
    );
  });
});
