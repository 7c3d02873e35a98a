import { readFileSync } from 'node:fs';
import { meshedStress, type OutlineData, outlineOf, readBrief } from '@lumenfront/core';
import { runCheck } from '@lumenfront/optimizer';
import { describe, expect, it } from 'vitest';
import { openWorkplace } from '../../packages/cli/src/workplace.js';
import { createCurveNodes } from '../../packages/core/src/outline/index.js';

const read = (name: string) => readFileSync(new URL(name, import.meta.url), 'utf8');

describe('the example of a section from a mesh, the foot of a hat stiffener', {
  tags: 'long',
  timeout: 120_000,
}, () => {
  it('has the peaks that its text says, by the fast model and by the mesh', async () => {
    const text = read('hat-foot.yaml');
    const brief = await readBrief(text, { textOf: read });
    const { joint, loads, cases, channel } = brief;
    const room = { mirror: false, xMin: -8, xMax: 0, yMin: 0, yMax: 5, edgeRadius: 0 };
    const workplace = openWorkplace(1, () => {});
    const outline = outlineOf(JSON.parse(read('hat-foot-channel.json')) as OutlineData, room);
    const { area, fast } = await runCheck(brief, outline, { mesh: false, workplace });
    const { at, width, height } = channel.reference;
    const round = { family: 'ellipse', parameters: { x: at[0], y: at[1], width, height, turn: 0 } };
    const reference = await runCheck(brief, outlineOf(round, room), { mesh: false, workplace });
    const [[times, least]] = [
      ...text.matchAll(/([\d.]+) times the area of the\n# round reference \(([\d.]+) MPa\)/g),
    ].map((match) => match.slice(1).map(Number)) as [[number, number]];
    expect(area / reference.area / times).toBeCloseTo(1, 2);
    expect(reference.fast.peak / least).toBeCloseTo(1, 3);
    const nodes = createCurveNodes(256);
    outline.place(nodes);
    const meshed = meshedStress(joint, loads, cases, nodes, { coarseness: 2 });
    const peaks = [...text.matchAll(/([\d.]+) MPa in case (\w+)/g)];
    expect(peaks.map(([, , name]) => name).sort()).toEqual(Object.keys(fast.cases).sort());
    for (const [, peak, name] of peaks) {
      expect(fast.cases[name!]!.peak / Number(peak)).toBeCloseTo(1, 3);
      expect(Math.abs(meshed.cases[name!]!.peak / Number(peak) - 1)).toBeLessThan(0.005);
    }
  });
});
