import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import {
  createCurveNodes,
  meshedStrength,
  type OutlineData,
  outlineOf,
  type ResolvedBrief,
  readBrief,
} from '@lumenfront/core';
import { runCheck } from '@lumenfront/optimizer';
import { describe, expect, it } from 'vitest';
import { prepareTask } from '../../packages/cli/src/prepare/index.js';
import { openWorkplace } from '../../packages/cli/src/workplace.js';
import { runCommand } from '../fixtures/command.js';

const read = (name: string) => readFileSync(new URL(name, import.meta.url), 'utf8');
const text = read('layups.yaml');
const channel = JSON.parse(read('layups-channel.json')) as OutlineData;
const room = { mirror: true, xMin: -5, xMax: 5, yMin: 0, yMax: 5, edgeRadius: 0, bendRadius: 5 };
const outline = outlineOf(channel, room);

/** The tables in the brief's comment, row by row: first places, then clarity and the place that fails next. */
const all = [
  ...text.matchAll(/^# +(-?[\d, -]*\d) {2,}([\d.]+) (\w+) \(([\d.]+) (\w+)\) +([\d.]+) (\w+) \(([\d.]+) (\w+)\)$/gm),
].map(([, layup, ...cells]) => {
  const entry = (first: number) => ({ factor: Number(cells[first]), place: cells[first + 1]! });
  return { layup: layup!, pulled: [entry(0), entry(2)], pushed: [entry(4), entry(6)] } as const;
});
const [rows, clarities] = [all.slice(0, 4), all.slice(4)];
const quasiIsotropic = rows[0]!.layup;

/** A place as the table calls it. */
const called = (place: string) => place.replace('arc-interface', 'interface');

function briefOf(layup: string): Promise<ResolvedBrief> {
  return readBrief(text.replace(/(overlaminate: \{ layup: )\[[^\]]*\]/, `$1[${layup}]`));
}

async function strengthOf(layup: string) {
  const { strength } = await runCheck(await briefOf(layup), outline, {
    mesh: false,
    workplace: openWorkplace(1, () => {}),
  });
  return strength!.cases;
}

describe('the example of four stackings', { tags: 'long' }, () => {
  it('says at an interface and in a bend which way a crack goes', async () => {
    const [brief, at] = ['layups.yaml', 'layups-channel.json'].map((name) =>
      fileURLToPath(new URL(name, import.meta.url)),
    );
    const { stdout } = await runCommand('check', brief!, '--channel', at!, '--fast');
    expect(stdout).toMatch(/pulled +filler\/overlaminate, \d\.\d\d mm off the edge, a crack kinking out meets it/);
    expect(stdout).toMatch(/pushed +bend, \d\.\d\d mm off the edge, a crack along it passes by/);
  });

  it('has a table of four, whose places differ', () => {
    expect(clarities.map(({ layup }) => layup)).toEqual(rows.map(({ layup }) => layup));
    expect(rows).toHaveLength(4);
    expect(new Set(rows.map(({ pulled }) => pulled[0].place)).size).toBeGreaterThan(1);
    expect(new Set(rows.map(({ pushed }) => pushed[0].place)).size).toBeGreaterThan(1);
  });

  // One joint solved to a row: the two whose places differ most.
  it.each([rows[0]!, rows[3]!])('fails first where the table says: $layup', async ({ layup, ...table }) => {
    const cases = await strengthOf(layup);
    const clarity = clarities.find((one) => one.layup === layup)!;
    for (const name of ['pulled', 'pushed'] as const) {
      const [expected, without] = table[name];
      const { withoutChannel, ...one } = cases[name]!;
      expect([name, called(one.place), called(withoutChannel.place)]).toEqual([name, expected.place, without.place]);
      expect(one.loadFactor).toBeCloseTo(expected.factor, 2);
      expect(withoutChannel.loadFactor).toBeCloseTo(without.factor, 2);
      for (const [told, found] of [
        [clarity[name][0], one],
        [clarity[name][1], withoutChannel],
      ] as const) {
        expect(found.clarity).toBeCloseTo(told.factor, 2);
        expect(called(found.next!)).toBe(told.place);
      }
    }
  });

  it('agrees with the meshed section on bend and interface', async () => {
    const brief = await briefOf(quasiIsotropic);
    const { joint } = brief;
    if (joint.kind !== 'tee') throw new Error('the example is a tee');
    const nodes = createCurveNodes(256);
    outline.place(nodes);
    const meshed = meshedStrength({ ...prepareTask(brief, () => {}), joint }, nodes);
    const fast = await strengthOf(quasiIsotropic);
    for (const { name, places } of meshed) {
      if (name === 'cured') continue;
      for (const place of ['bend', 'arc-interface'] as const) {
        const factorIn = (all: ReadonlyArray<{ readonly place: string; readonly factor: number }>) =>
          all.find((one) => one.place === place)!.factor;
        expect(Math.abs(factorIn(fast[name]!.places) / factorIn(places) - 1), `${name} ${place}`).toBeLessThan(0.02);
      }
    }
  });
});
