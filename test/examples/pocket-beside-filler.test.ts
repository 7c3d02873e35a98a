import { readFileSync } from 'node:fs';
import {
  createChannelReporter,
  createStrengthModel,
  createStressModel,
  createTask,
  hostOf,
  outlineOf,
  type ReducedModel,
  readBrief,
  reduceJoint,
  wholeRoom,
} from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { ellipseNodes } from '../fixtures/tee-reference.js';

const text = readFileSync(new URL('pocket-beside-filler.yaml', import.meta.url), 'utf8');

/** The table in the brief's comment. */
const rows = [
  ...text.matchAll(/^# {3}(0\.7 x 0\.5|without) +([\d.]+) x ([\d.]+) +([\d.]+) +([\d.]+|-) +([\d.]+) +([\w-]+)/gm),
].map(([, filler, width, height, peak, beside, factor, place]) => ({
  isKnown: filler !== 'without',
  size: [Number(width), Number(height)] as const,
  ...{ peak: Number(peak), beside, factor: Number(factor), place },
}));

const models = new Map<boolean, ReducedModel>();

describe('the example of a pocket beside a channel in the filler', { tags: 'long' }, () => {
  it('has six rows in its table', () => {
    expect(rows).toHaveLength(6);
  });

  it.each(rows)('has the stresses and the strength of its table: $isKnown, $size', { timeout: 60_000 }, async (row) => {
    const brief = await readBrief(row.isKnown ? text : text.replace(/ {4}channel: \{ at.*\n/, ''));
    const { joint, loads, cases } = brief;
    const host = hostOf(joint);
    const model = models.get(row.isKnown) ?? reduceJoint(joint, brief.channel);
    models.set(row.isKnown, model);
    const [width, height] = row.size;
    const nodes = ellipseNodes(width / 2, height / 2, host.largestCircle!.at, 0, 192);
    const edge = createStressModel(model, loads, cases).evaluate(nodes, false);
    const strength = createStrengthModel(model, joint, loads, cases, { edge: 'peak' });
    const pulled = cases.findIndex(({ name }) => name === 'pulled');
    const { factor, place } = strength.evaluate(edge).cases[pulled]!;
    expect(edge.cases[pulled]!.peak).toBeCloseTo(row.peak, 0);
    expect(factor).toBeCloseTo(row.factor, 2);
    expect(place).toBe(row.place);
    const [x, y] = host.largestCircle!.at;
    const outline = outlineOf({ family: 'ellipse', parameters: { x, y, width, height, turn: 0 } }, wholeRoom(brief));
    const report = createChannelReporter(createTask(brief, model))(outline).strength()!;
    // What designs are told with, and the case of it.
    expect(report.beside?.stress.toFixed(1) ?? '-').toBe(row.beside);
    expect(report.beside).toEqual(row.isKnown ? { ...report.cases.pulled!.beside!, worstCase: 'pulled' } : undefined);
  });
});
