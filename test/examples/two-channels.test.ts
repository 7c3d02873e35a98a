import { readFileSync } from 'node:fs';
import {
  createChannelReporter,
  createTask,
  outlineOf,
  type ReducedModel,
  readBrief,
  reduceJoint,
  wholeRoom,
} from '@lumenfront/core';
import { randomFrom, studyScatter } from '@lumenfront/optimizer';
import { beforeAll, describe, expect, it } from 'vitest';
import { withRoomForScatter } from '../../packages/optimizer/src/scatter/index.js';

const text = readFileSync(new URL('two-channels.yaml', import.meta.url), 'utf8');
const cases = ['cured', 'stretched', 'sheared', 'opened'];

/** The table in the brief's comment. */
const rows = [...text.matchAll(/^# {3}(alone|[\d.]+) +([\d.]+) +([\d.]+) +([\d.]+) +([\d.]+)/gm)].map(
  ([, pitch, ...peaks]) => ({ pitch: pitch === 'alone' ? undefined : Number(pitch), peaks: peaks.map(Number) }),
);

let model: ReducedModel;
beforeAll(async () => {
  const { joint, channel } = await readBrief(text);
  model = reduceJoint(joint, channel);
}, 120_000);

describe('the example of two channels in a slot', { tags: 'long' }, () => {
  it.each(rows)('has the peaks of its table at a pitch of $pitch', async ({ pitch, peaks }) => {
    const brief = await readBrief(pitch === undefined ? text.replace('number: 2', 'number: 1') : text);
    const size = { y: 1, width: 0.24, height: 0.24 };
    const parameters = pitch === undefined ? size : { x: pitch / 2, ...size, turn: 0 };
    const report = createChannelReporter(createTask(brief, model));
    const { design } = report(outlineOf({ family: 'ellipse', parameters }, wholeRoom(brief)));
    cases.forEach((name, c) => {
      expect(Math.abs(design.cases[name]!.peak / peaks[c]! - 1), name).toBeLessThan(0.002);
    });
    if (pitch !== undefined) expect(design.cases.sheared!.at[0]).toBeLessThan(0);
  });

  it('leaves 95 % of two as they are made within the peak that it tells', async () => {
    const brief = await readBrief(text);
    const outline = outlineOf(
      { family: 'ellipse', parameters: { x: 0.25, y: 1, width: 0.24, height: 0.24, turn: 0 } },
      wholeRoom(brief),
    );
    const [, told, drawn] = /two stay within ([\d.]+) MPa in the worst case, ([\d.]+) as drawn/.exec(text)!;
    const study = studyScatter(withRoomForScatter(brief, brief.scatter), outline, brief.scatter, {
      ...{ strength: brief.strength, allow: brief.allow, random: randomFrom(brief.search.seed) },
    });
    expect(Math.abs(study.quantilePeak / Number(told) - 1)).toBeLessThan(0.002);
    expect(Math.abs(study.nominal.peak / Number(drawn) - 1)).toBeLessThan(0.002);
    expect(study.judged).toBe(200);
  }, 120_000);

  it('tells five rows', () => expect(rows).toHaveLength(5));

  it.each([
    ['three', 3],
    ['four', 4],
  ])('has the peaks of its table for %s', async (word, number) => {
    const told = new RegExp(`^# {3}${word} +([\\d.]+) +([\\d.]+) +([\\d.]+) +([\\d.]+)`, 'm').exec(text)!.slice(1);
    const wish = `number: ${number}\n  pitch: 0.5`;
    const brief = await readBrief(text.replace('number: 2', wish).replace('connected: series', 'connected: parallel'));
    const size = { y: 1, width: 0.24, height: 0.24 };
    const parameters = number === 3 ? size : { x: 0.25, ...size, turn: 0 };
    const report = createChannelReporter(createTask(brief, model));
    const { design } = report(outlineOf({ family: 'ellipse', parameters }, wholeRoom(brief)));
    cases.forEach((name, c) => {
      expect(Math.abs(design.cases[name]!.peak / Number(told[c]) - 1), name).toBeLessThan(0.002);
      expect(Math.abs(design.cases[name]!.at[0])).toBeGreaterThan(0.5);
    });
  });
});
