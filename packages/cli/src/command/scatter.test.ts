import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sampleDesign, sampleFront } from '../../../../test/fixtures/results.js';
import { caution } from '../caution.js';
import { run } from '../run.js';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'lumenfront-scatter-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

function file(name: string, content: string): string {
  writeFileSync(join(folder, name), content);
  return join(folder, name);
}

async function scatter(...argv: string[]) {
  const streams = { stdout: new PassThrough(), stderr: new PassThrough() };
  const exitCode = await run(['scatter', ...argv], streams);
  return { exitCode, stdout: String(streams.stdout.read() ?? ''), stderr: String(streams.stderr.read() ?? '') };
}

/** A sheet needs no mesh; a circle in it has three times the tension at its edge (Kirsch 1898). */
const sheet = (sizes: string, allow = 40) =>
  file(
    'sheet.yaml',
    `host: { kind: plate }
loads: { farField: { sx: 10 } }
allow: ${allow}
channel: { families: [ellipse], largest: { width: 4, height: 2 }, edgeRadius: 0.1 }
search: { evaluations: 200 }
scatter: ${sizes}
`,
  );

const still = 'outline: 0, position: 0, turn: 0, strength: 0, cure: 0';
const ellipse = (width: number, height: number) => ({ family: 'ellipse', parameters: { y: 0, width, height } });
const circle = () => file('circle.json', JSON.stringify(ellipse(1, 1)));

/** As `front` writes it. */
const front = (...designs: (readonly [width: number, height: number])[]) =>
  file(
    'front.json',
    JSON.stringify(
      sampleFront(designs.map(([width, height]) => sampleDesign(width, height, 10 * (1 + (2 * height) / width), 0))),
    ),
  );

describe('scatter of one channel', () => {
  it('leaves a circle at its peak wherever it is made', async () => {
    const brief = sheet('{ outline: 0, position: 0.2, turn: 20, samples: 25 }');
    const { exitCode, stdout } = await scatter(brief, '--channel', circle(), '--json');
    expect(exitCode).toBe(0);
    const { nominal, peak, withinAllowed, samples, judged, quantilePeak, seed, ...rest } = JSON.parse(stdout);
    for (const value of [nominal.peak, peak.mean, peak.least, peak.most, quantilePeak])
      expect(value).toBeCloseTo(30, 4);
    expect([withinAllowed, samples, judged, seed]).toEqual([1, 25, 25, 1]);
    // The edge is all that can fail of a sheet.
    for (const key of ['loadFactor', 'retained', 'startsAtEdge']) expect(rest).not.toHaveProperty(key);
  });

  it('says what share of made channels stays within the allowed peak', async () => {
    const brief = sheet('{ outline: 0.02, samples: 50 }', 31);
    const { stdout } = await scatter(brief, '--channel', circle(), '--json');
    const { peak, withinAllowed } = JSON.parse(stdout);
    expect(peak.least).toBeLessThan(31);
    expect(peak.most).toBeGreaterThan(31);
    expect(withinAllowed * 50).toBeCloseTo(Math.round(withinAllowed * 50), 9);
    const { stdout: text } = await scatter(brief, '--channel', circle());
    expect(text).toContain(`chance to stay within the allowed 31 MPa: ${(100 * withinAllowed).toFixed(1)} %`);
    expect(text).toMatch(/peak, MPa +30\.00/);
    expect(text).toMatch(/outline 0\.02 mm/);
    expect(text).toContain(caution);
    expect((await scatter(brief, '--channel', circle(), '--json', '--seed', '2')).stdout).not.toBe(stdout);
  });

  it('writes the same to a file', async () => {
    const out = join(folder, 'study.json');
    const brief = sheet(`{ ${still}, samples: 20 }`);
    const { stdout } = await scatter(brief, '--channel', circle(), '--json', '--out', out);
    expect(JSON.parse(readFileSync(out, 'utf8'))).toEqual(JSON.parse(stdout));
    expect((await scatter(brief, '--channel', circle(), '--out', out)).exitCode).toBe(2);
  });

  it('judges the whole joint of a tee, in a channel whose wall is less than the brief asks for', {
    tags: 'long',
  }, async () => {
    const brief = file(
      'tee.yaml',
      `host: { kind: tee, bendRadius: 5 }
loads: { pull: { force: 20 }, cure: { deltaT: -50 } }
cases: { pulled: { pull: 1, cure: 1 } }
channel: { wall: 0.3, edgeRadius: 0.2 }
scatter: { samples: 20, outline: 0.005, position: 0.01 }
`,
    );
    const low = file('low.json', JSON.stringify({ family: 'ellipse', parameters: { y: 0.6, width: 1, height: 0.8 } }));
    const { exitCode, stdout } = await scatter(brief, '--channel', low, '--json');
    expect(exitCode).toBe(0);
    const { nominal, loadFactor, retained, judged, startsAtEdge } = JSON.parse(stdout);
    expect(judged).toBe(20);
    expect(loadFactor.mean / nominal.loadFactor).toBeCloseTo(1, 1);
    expect(retained.most).toBeLessThan(1);
    expect(startsAtEdge).toBeGreaterThan(0);
    const { stdout: text } = await scatter(brief, '--channel', low);
    expect(text).toMatch(/strength retained, % /);
    expect(text).toMatch(/all of them are channels of the joint/);
  });

  it('refuses options that contradict each other, and a channel that leaves the filler', async () => {
    const refused = async (...argv: string[]) => {
      const { exitCode, stderr } = await scatter(...argv);
      expect(exitCode).toBe(2);
      return stderr;
    };
    expect(await refused('--design', '2')).toMatch(/--design: expected --channel/);
    expect(await refused('--evaluations', '-1')).toMatch(/--evaluations/);
    const outside = file('out.json', JSON.stringify({ family: 'ellipse', parameters: { y: 2, width: 6, height: 1 } }));
    expect(await refused('--channel', outside)).toMatch(/inside the filler/);
  });
});

describe('scatter of a front', () => {
  it('is the front as drawn where nothing scatters and nothing is improved', async () => {
    const given = front([2, 0.8], [2.5, 1.2], [3, 1.8], [4, 2]);
    const { exitCode, stdout } = await scatter(
      sheet(`{ ${still}, samples: 20 }`),
      ...['--channel', given, '--evaluations', '0', '--json'],
    );
    expect(exitCode).toBe(0);
    const { designs, drawn } = JSON.parse(stdout);
    // 3 x 1.8 has a peak of 22 MPa, 4 x 2 has 20 at more area.
    expect(designs.map(({ parameters }: { parameters: { width: number } }) => parameters.width)).toEqual([2, 2.5, 4]);
    for (const { peak, quantilePeak } of designs) expect(quantilePeak / peak).toBeCloseTo(1, 6);
    expect(drawn.map(({ design }: { design: number }) => design)).toEqual([1, 2, 3]);
  });

  it('shows what becomes of the front as drawn, from a file and searched', { tags: 'long' }, async () => {
    const brief = sheet('{ outline: 0.01, position: 0, turn: 3, samples: 20 }');
    const argv = ['--evaluations', '600', '--quiet'];
    const { stdout } = await scatter(brief, '--channel', front([1.5, 0.5], [2, 0.8], [2.5, 1.2]), ...argv);
    expect(stdout).toMatch(/front of area against the peak that 95 % of made channels stay within/);
    expect(stdout).toMatch(/improved for scatter/);
    expect(stdout).toMatch(/no: design \d is as large, of less peak/);
    expect(stdout).toContain(caution);
    const searched = await scatter(brief, ...argv, '--json', '--workers', '1');
    expect(searched.exitCode).toBe(0);
    expect(searched.stderr).toBe('');
    const { designs, drawn } = JSON.parse(searched.stdout);
    expect(designs.length).toBeGreaterThan(1);
    for (const { quantilePeak, peak } of drawn) expect(quantilePeak).toBeGreaterThan(peak);
    // What it writes is a channel file.
    const out = file('scattered.json', searched.stdout);
    expect((await scatter(brief, '--channel', out, '--design', '2', '--json')).exitCode).toBe(0);
  });

  it('says so where every design loses too many samples', async () => {
    const brief = sheet('{ outline: 0.4, position: 0, turn: 0, samples: 20 }');
    const { exitCode, stderr } = await scatter(brief, '--channel', front([1.5, 0.5]), '--evaluations', '0');
    expect(exitCode).toBe(1);
    expect(stderr).toMatch(/every design loses more than 5 % of its samples/);
  });
});
