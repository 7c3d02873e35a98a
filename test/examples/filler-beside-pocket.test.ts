import { readFileSync } from 'node:fs';
import { createStrengthModel, createStressModel, hostOf, type ReducedModel, readBrief } from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { ellipseNodes } from '../fixtures/tee-reference.js';

const text = readFileSync(new URL('filler-beside-pocket.yaml', import.meta.url), 'utf8');
const without = text.replace(/ {2}pocket:\n( {4}.*\n)+/, '');

/** The table in the brief's comment. */
const rows = [
  ...text.matchAll(
    /^# {3}(0\.6 x 0\.4|without) +([\d.]+) x ([\d.]+), ([\d.]+) +([\d.]+) +([\d.]+|-) +([\d.]+) +(\w+)/gm,
  ),
].map(([, bend, width, height, y, peak, inBend, factor, place]) => ({
  brief: bend === 'without' ? without : text,
  outline: { width: Number(width), height: Number(height), y: Number(y) },
  told: { peak: Number(peak), inBend, factor: Number(factor), place },
}));

const models = new Map<string, ReducedModel>();

describe('the example of a filler beside a channel in the bend', { tags: 'long' }, () => {
  it('has six rows in its table', () => {
    expect(rows).toHaveLength(6);
    expect(without).not.toContain('pocket:');
  });

  it.each(rows)('has the stresses and the strength of its table: $outline', { timeout: 60_000 }, async (row) => {
    const { joint, loads, cases } = await readBrief(row.brief);
    const model = models.get(row.brief) ?? hostOf(joint).reduce({ wall: 0.15, edgeRadius: 0.1 });
    models.set(row.brief, model);
    const { width, height, y } = row.outline;
    const edge = createStressModel(model, loads, cases).evaluate(
      ellipseNodes(width / 2, height / 2, [0, y], 0, 192),
      false,
    );
    const strength = createStrengthModel(model, joint, loads, cases, { edge: 'peak' });
    const pulled = cases.findIndex(({ name }) => name === 'pulled');
    const { factor, place } = strength.evaluate(edge).cases[pulled]!;
    expect(edge.cases[pulled]!.peak).toBeCloseTo(row.told.peak, 0);
    expect(factor).toBeCloseTo(row.told.factor, 2);
    expect(place).toBe(row.told.place);
    expect(strength.tensionAlong(pulled, 'pocket-channel')?.stress.toFixed(1) ?? '-').toBe(row.told.inBend);
  });
});
