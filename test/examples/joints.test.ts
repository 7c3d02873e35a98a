import { readFileSync } from 'node:fs';
import { type OutlineData, outlineOf, readBrief, type TeeJoint } from '@lumenfront/core';
import { runCheck } from '@lumenfront/optimizer';
import { describe, expect, it } from 'vitest';
import { openWorkplace } from '../../packages/cli/src/workplace.js';

const read = (name: string) => readFileSync(new URL(name, import.meta.url), 'utf8');

describe.each(['hull-stiffener', 'thin-rib'])('the example %s', { tags: 'long' }, (name) => {
  it('has the peaks and the strength that its text says', async () => {
    const text = read(`${name}.yaml`);
    const brief = await readBrief(text);
    const data = JSON.parse(read(`${name}-channel.json`)) as OutlineData;
    const { bendRadius: R } = brief.joint as TeeJoint;
    const room = { mirror: true, xMin: -R, xMax: R, yMin: 0, yMax: R, edgeRadius: 0, bendRadius: R };
    const workplace = openWorkplace(1, () => {});
    const check = (outline: OutlineData) => runCheck(brief, outlineOf(outline, room), { mesh: false, workplace });
    const { area, fast, strength } = await check(data);
    const { at, width, height } = brief.channel.reference;
    const reference = await check({ family: 'ellipse', parameters: { x: at[0], y: at[1], width, height, turn: 0 } });
    const said = (pattern: RegExp) => [...text.matchAll(pattern)].map((match) => match.slice(1));
    const peaks = said(/([\d.]+) MPa in case (\w+)/g);
    expect(peaks).toHaveLength(2);
    for (const [peak, one] of peaks) expect(fast.cases[one!]!.peak / Number(peak)).toBeCloseTo(1, 3);
    const retained = said(/([\d.]+) % in case (\w+)/g);
    expect(retained.length).toBeGreaterThan(0);
    for (const [share, one] of retained)
      expect((100 * strength!.cases[one!]!.retained) / Number(share)).toBeCloseTo(1, 2);
    const [[times, least]] = said(/([\d.]+) times the area of the round reference \(([\d.]+) MPa\)/g) as [string[]];
    expect(area / reference.area / Number(times)).toBeCloseTo(1, 2);
    expect(reference.fast.peak / Number(least)).toBeCloseTo(1, 2);
  });
});
