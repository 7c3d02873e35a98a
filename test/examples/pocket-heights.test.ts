import { readFileSync } from 'node:fs';
import {
  channelRoom,
  createChannelReporter,
  createChannelScorer,
  createCurveNodes,
  createStressModel,
  decodeModel,
  encodeModel,
  followOutline,
  hostOf,
  modelAt,
  outlineOf,
  pocketHeight,
  readBrief,
  reduceJoint,
  scoreAt,
  scoreSize,
} from '@lumenfront/core';
import { openThread, runCheck, runFront } from '@lumenfront/optimizer';
import { beforeAll, describe, expect, it } from 'vitest';

const text = readFileSync(new URL('pocket-heights.yaml', import.meta.url), 'utf8');
const film = 0.05;
/** Keeps the one table of heights. */
const workplace = openThread();

const brief = (change: (text: string) => string = (same) => same) =>
  readBrief(change(text).replace('families: [ellipse, spline]', 'families: [ellipse]'));

const problemsOf = async (change: (text: string) => string) => {
  try {
    await brief(change);
  } catch (error) {
    return String(error);
  }
  return 'none';
};

describe('the example of a pocket that follows its channel', { tags: 'long' }, () => {
  beforeAll(async () => {
    workplace.prepare(await brief());
  }, 300_000);

  it('tells every design its pocket, and the mesh agrees in that', { timeout: 300_000 }, async () => {
    const given = await brief((of) => of.replace('evaluations: 4000', 'evaluations: 250'));
    const { designs } = await runFront(given, { workplace });
    expect(designs.length).toBeGreaterThan(3);
    for (const { height, pocketHeight } of designs)
      expect(pocketHeight).toBeCloseTo(Math.min(0.9, Math.max(0.4, height + 2 * film)), 4);
    expect(Math.max(...designs.map(({ height }) => height))).toBeGreaterThan(0.4);
    const [one] = designs;
    const check = await runCheck(given, outlineOf(one!, channelRoom(given)), { mesh: true, workplace });
    expect(check.difference!.holds).toBe(true);
    expect(Math.abs(check.difference!.worst.difference)).toBeLessThan(0.01);
  });

  it('has between its heights what a reduction of that height alone has', { timeout: 300_000 }, async () => {
    const given = await brief();
    const { model, joint, channel } = workplace.prepare(given);
    const outline = outlineOf({ family: 'ellipse', parameters: { width: 0.75, height: 0.5 } }, channelRoom(given));
    const height = pocketHeight(joint, outline)!;
    expect(height).toBeCloseTo(0.6, 5);
    const nodes = createCurveNodes(160);
    outline.place(nodes);
    const loads = { stretch: { strain: 0.001 }, flatwise: { stress: 5 }, cure: { deltaT: -60 } };
    const kept = decodeModel('one', encodeModel('one', model));
    const [table, alone] = [modelAt(kept, height), reduceJoint(followOutline(given, outline).joint, channel)].map(
      (one) =>
        createStressModel(one, loads, [])
          .evaluate(nodes, true)
          .loads.map(({ peak }) => peak),
    );
    table!.forEach((peak, l) => {
      expect(Math.abs(peak / alone![l]! - 1)).toBeLessThan(0.003);
    });
  });

  it('searches by the strength that it reports', { timeout: 300_000 }, async () => {
    const given = await brief((of) => of.replace('evaluations: 4000', 'against: load-factor'));
    const task = workplace.prepare(given);
    const scorer = createChannelScorer(task);
    const score = new Float64Array(scoreSize);
    const report = createChannelReporter(task);
    for (const [width, height] of [
      [0.5, 0.33],
      [0.7, 0.5],
      [0.9, 0.71],
    ]) {
      scorer.score(0, [width!, height!], score);
      const outline = outlineOf(
        { family: 'ellipse', parameters: { width: width!, height: height! } },
        channelRoom(given),
      );
      expect(Math.abs(score[scoreAt.cost]! * report(outline).strengthSummary()!.loadFactor - 1)).toBeLessThan(0.005);
    }
  });

  it('draws the pocket of the outline', async () => {
    const given = await brief();
    const roomOf = (height: number) => {
      const outline = outlineOf({ family: 'ellipse', parameters: { width: 0.6, height } }, channelRoom(given));
      const { yMin, yMax } = hostOf(followOutline(given, outline).joint).shape!.roomBox;
      return yMax - yMin;
    };
    expect(roomOf(0.4)).toBeCloseTo(0.5, 4);
    expect(roomOf(0.7)).toBeCloseTo(0.8, 4);
  });

  it('refuses in words what it cannot do', async () => {
    expect(await problemsOf((of) => of.replace('heights: [0.3, 0.8]', 'heights: [0.8, 0.3]'))).toContain(
      'the least height before the largest',
    );
    expect(await problemsOf((of) => of.replace('heights: [0.3, 0.8]', 'heights: [0.1, 0.8]'))).toContain(
      'at most 4 times the least',
    );
    expect(
      await problemsOf((of) => of.replace('made: drape', 'made: cut').replace(/ {4}(above|height|film):.*\n/g, '')),
    ).toContain('no heights of a slot');
    const thick = await brief((of) => of.replace('wall: 0.045', 'wall: 0.05'));
    expect(() => openThread().prepare(thick)).toThrow('95 % of the film');
  });
});
