import { createCurveNodes, readBrief, resolveBrief, starterBrief } from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { laminatePly, pocketResin } from '../../../../test/fixtures/laminates.js';
import { ellipseNodes } from '../../../../test/fixtures/tee-reference.js';
import { crackGrowthOf } from './crack-growth.js';

const crackGrowth = { length: 0.4, modeI: 0.2, modeII: 0.6 };
const laminate = {
  host: {
    ...{
      kind: 'laminate',
      layup: [0, 90, 0, 90],
      plyThickness: 0.3,
      ply: 'carbon',
      width: 16,
      ends: 'free',
      faces: 'both-flat',
    },
    pocket: { made: 'drape', resin: 'resin', above: 2, height: 0.4 },
  },
  materials: { carbon: laminatePly, resin: pocketResin },
  loads: { flatwise: { stress: 2 }, cure: { deltaT: -80 } },
  cases: { opened: { cure: 1, flatwise: 1 } },
  channel: { wall: 0.05, edgeRadius: 0.05, families: ['ellipse'] },
  strength: { crackGrowth },
};

describe('cracks that a brief asks about', () => {
  it('are told one by one, with the least load factor', { tags: 'long' }, async () => {
    const brief = await resolveBrief(laminate);
    const { growth, caution } = crackGrowthOf(brief, ellipseNodes(0.4, 0.12, [0, 0.6], 0, 256));
    expect(caution).toBeUndefined();
    expect(growth).toMatchObject(crackGrowth);
    expect(growth!.cracks.map(({ end, below, between }) => [end, below, between])).toEqual([
      ['left', 2, '90/0'],
      ['right', 2, '90/0'],
    ]);
    const cases = growth!.cracks.map((one) => one.cases.opened!);
    expect(growth!.loadFactor).toBe(Math.min(...cases.map(({ loadFactor }) => loadFactor)));
    // The joint is its own mirror image.
    for (const { modeI, modeII, closed, error } of cases) {
      expect(closed).toBe(false);
      expect(Math.abs((modeI + modeII) / (cases[0]!.modeI + cases[0]!.modeII) - 1)).toBeLessThan(0.005);
      expect(error).toBeLessThan(0.02);
    }
  });

  it('are left aside, in words, where none are meshed; nothing is said where none are asked for', async () => {
    const starter = await readBrief(starterBrief);
    const asked = { ...starter, strength: { ...starter.strength, crackGrowth } };
    expect(crackGrowthOf(asked, createCurveNodes(64))).toEqual({
      caution: expect.stringMatching(/this joint has none/),
    });
    expect(crackGrowthOf(starter, createCurveNodes(64))).toEqual({});
  });
});
