import { readFileSync } from 'node:fs';
import { createStrengthModel, createStressModel, hostOf, type ReducedModel, readBrief } from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { ellipseNodes } from '../fixtures/tee-reference.js';

const text = readFileSync(new URL('pocket-in-bend.yaml', import.meta.url), 'utf8');

/** The table in the brief's comment. */
const rows = [
  ...text.matchAll(/^# {3}(bend|skin) above ply (\d) +([\d.]+) x ([\d.]+) +([\d.]+) +([\d.]+) +([\w-]+)/gm),
].map(([, where, above, ...rest]) => ({
  where: where!,
  above: above!,
  size: rest.slice(0, 4).map(Number) as [width: number, height: number, peak: number, factor: number],
  place: rest[4]!,
}));

const models = new Map<string, ReducedModel>();

describe('the example of a pocket in a bend', { tags: 'long' }, () => {
  it('has six rows in its table', () => {
    expect(rows).toHaveLength(6);
  });

  it.each(rows)('has the strength of its table: $where above ply $above, $size', { timeout: 60_000 }, async (row) => {
    const { where, above, size, place } = row;
    const [width, height, peak, factor] = size;
    const brief = text
      .replace('in: bend', `in: ${where}`)
      .replace('above: 4', `above: ${above}`)
      .replace(/ {2}reference: .*\n/, '');
    const { joint, loads, cases } = await readBrief(brief);
    const host = hostOf(joint);
    const key = `${where} ${above}`;
    const model =
      models.get(key) ?? host.reduce({ wall: 0.05, edgeRadius: 0.06, largest: { width: 1.6, height: 0.9 } });
    models.set(key, model);
    const nodes = ellipseNodes(width / 2, height / 2, host.largestCircle!.at, 0, 192);
    const edge = createStressModel(model, loads, cases).evaluate(nodes, false);
    const strength = createStrengthModel(model, joint, loads, cases, { edge: 'peak' }).evaluate(edge);
    const pulled = cases.findIndex(({ name }) => name === 'pulled');
    expect(edge.cases[pulled]!.peak).toBeCloseTo(peak, 0);
    expect(strength.cases[pulled]!.factor).toBeCloseTo(factor, 1);
    expect(strength.cases[pulled]!.place).toBe(place);
  });
});
