import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sampleDesign, sampleFront } from '../../../../test/fixtures/results.js';
import { caution } from '../caution.js';
import { run } from '../run.js';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'lumenfront-deliver-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

function file(name: string, content: string): string {
  writeFileSync(join(folder, name), content);
  return join(folder, name);
}

async function deliver(...argv: string[]) {
  const streams = { stdout: new PassThrough(), stderr: new PassThrough() };
  const exitCode = await run(['deliver', ...argv], streams);
  return { exitCode, stdout: String(streams.stdout.read() ?? ''), stderr: String(streams.stderr.read() ?? '') };
}

/** A sheet needs no mesh. The edge of a circle bears as much pressure as its hoop tension: 10 MPa (Lame). */
const sheet = (delivery: string) =>
  file(
    'sheet.yaml',
    `host: { kind: plate, material: sheet }
materials: { sheet: { E: 70000, nu: 0.3, alpha: 0, transverseTension: 10, interlaminarShear: 60 } }
loads: { farField: { sx: 3.1 } }
channel: { reference: { at: [0, 0], width: 0.5, height: 0.5 } }
delivery: ${delivery}
`,
  );

const circle = (diameter: number) =>
  file('circle.json', JSON.stringify({ family: 'ellipse', parameters: { y: 0, width: diameter, height: diameter } }));

describe('deliver', () => {
  it('says how much more a channel carries than the reference: the fourth power of the diameter (Hagen-Poiseuille)', async () => {
    const { exitCode, stdout } = await deliver(sheet('{}'), '--channel', circle(1), '--json');
    expect(exitCode).toBe(0);
    const { ratio, channel, reference } = JSON.parse(stdout);
    expect(ratio.area).toBeCloseTo(4, 6);
    expect(ratio.flow).toBeCloseTo(16, 6);
    expect(channel.flow.poiseuilleNumber).toBeCloseTo(16, 6);
    expect(reference.flow.conductance / ((Math.PI * 0.25 ** 4) / 8)).toBeCloseTo(1, 6);
    const { stdout: text } = await deliver(sheet('{}'), '--channel', circle(1));
    expect(text).toContain('The channel carries 16 times the laminar flow of the reference, at 4 times its area.');
    expect(text).toContain(caution);
    expect(text).toMatch(/Poiseuille number f Re +16 +16/);
    expect(text).toMatch(/note: thin cyanoacrylate: typical, from memory/);
  });

  it('cuts the supply to what the edge bears while a case acts', async () => {
    const free = JSON.parse(
      (await deliver(sheet('{ supply: { pressure: 12 } }'), '--channel', circle(1), '--json')).stdout,
    );
    expect(free.channel.edge.stressPerPressure).toBeCloseTo(1, 6);
    expect(free.channel.edge.allowedStress).toBe(10);
    expect(free.channel.healing[0].smallestDamage.pressure).toBeCloseTo(10, 6);
    // Kirsch (1898): three times 3.1 MPa act at the edge already.
    const stretched = sheet('{ during: farField, supply: { pressure: 12 } }');
    const { stdout } = await deliver(stretched, '--channel', circle(1), '--json');
    expect(JSON.parse(stdout).channel.healing[0].smallestDamage.pressure).toBeCloseTo(0.7, 6);
    const { stdout: text } = await deliver(stretched, '--channel', circle(1));
    expect(text).toMatch(/note: the edge of the channel bears 0\.7 of the 12 MPa supplied/);
  });

  it('leaves out of the JSON what has no bound, says never in the text, and why', async () => {
    // Neither pressure nor wetting: nothing moves.
    const still = sheet(
      '{ supply: { pressure: 0 }, agents: [{ name: tar, viscosity: 9e5, gelTime: 60, volumeChange: 0, largestGap: 1 }] }',
    );
    const { stdout } = await deliver(still, '--channel', circle(1), '--json');
    expect(stdout).not.toContain('null');
    const [tar] = JSON.parse(stdout).channel.healing;
    expect(tar.smallestDamage).toMatchObject({ healed: false, reasons: ['entry'], gelTime: 60, flowRate: 0 });
    for (const key of ['primingTime', 'fillTime', 'volumeAvailable'])
      expect(tar.smallestDamage).not.toHaveProperty(key);
    const { stdout: text } = await deliver(still, '--channel', circle(1));
    expect(text).toMatch(/tar +channel +0 +never +60 +no: entry/);
    expect(text).toMatch(/\nentry: the supply does not push the agent in/);
  });

  it('says where a sensor does not fit, and where flow is not laminar', async () => {
    const brief = sheet('{ sensor: { diameter: 0.7 }, cooling: { pressureDrop: 0.5 } }');
    const { stdout } = await deliver(brief, '--channel', circle(1));
    expect(stdout).toMatch(/note: a sensor of 0\.7 mm does not fit the reference/);
    expect(stdout).not.toMatch(/does not fit the channel/);
    expect(stdout).toMatch(
      /note: water at 20 C in the channel: turbulent at Reynolds number 11600, by the laws of smooth walls/,
    );
    expect(stdout).toMatch(/note: water at 20 C in the reference: neither laminar nor turbulent for certain/);
  });

  it('says where supply and pump give no more flow than they are said to', async () => {
    const brief = sheet('{ supply: { flowLimit: 100 }, cooling: { pressureDrop: 0.5, flowLimit: 200 } }');
    const { stdout } = await deliver(brief, '--channel', circle(1));
    expect(stdout).toMatch(/water at 20 C over 200 mm at 0\.5 MPa +200 +200 +mm³\/s/);
    expect(stdout).toMatch(
      /note: water at 20 C in the channel: the pump gives no more than this flow, which takes 0\.001\d+ MPa/,
    );
    expect(stdout).toMatch(/note: thin cyanoacrylate in the channel: the supply gives no more than 100 mm³\/s/);
    // 157 mm3 of channel at 100 mm3/s
    expect(stdout).toMatch(/thin cyanoacrylate +channel +100 +1\.57 /);
  });

  it('takes the starter brief, whose joint it solves, and a design of a front', { tags: 'long' }, async () => {
    const front = file('front.json', JSON.stringify(sampleFront([sampleDesign(2, 1.2, 30)])));
    const { exitCode, stdout } = await deliver('--channel', front, '--design', '1', '--json', '--quiet');
    expect(exitCode).toBe(0);
    const { channel, delivery } = JSON.parse(stdout);
    expect(delivery.during.name).toBe('cured');
    expect(channel.edge.stressPerPressure).toBeGreaterThan(0);
    expect(channel.edge.allowedStress).toBeGreaterThan(0);
    expect(channel.healing).toHaveLength(3);
  });

  it.each([
    [{ family: 'ellipse', parameters: { y: 1, width: 4, height: 4 } }, /outline inside the filler.*leaves it by/],
    [{ family: 'star', parameters: {} }, /received "?star/],
  ])('refuses %j', async (content, says) => {
    const { exitCode, stderr } = await deliver('--channel', file('bad.json', JSON.stringify(content)));
    expect(exitCode).toBe(2);
    expect(stderr).toMatch(says);
  });
});
