import { beforeAll, describe, expect, it } from 'vitest';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import { readBrief, type StrengthWish } from '../brief/index.js';
import type { CurveNodes } from '../outline/index.js';
import {
  type ChannelScorer,
  type ChannelTask,
  createChannelReporter,
  createChannelScorer,
  limitsStrength,
  scoreAt,
  scoreSize,
} from './index.js';

let plain: ChannelTask;
let wish: StrengthWish;
beforeAll(async () => {
  const brief = await readBrief(`host: { kind: tee, bendRadius: 5 }
loads: { pull: { force: 100 }, cure: { deltaT: -100 } }
cases: { cured: { cure: 1 }, pulled: { pull: 0.2, cure: 1 } }
channel: { families: [ellipse], wall: 0.15, edgeRadius: 0.15 }
strength: { edge: { distance: 0.1, average: true } }
`);
  wish = brief.strength;
  plain = preparedTask(brief);
});

/** Scores of centred ellipses, without and with what is asked of strength. */
function scoresAsking(asked: Partial<StrengthWish>) {
  const task = { ...plain, strength: { ...wish, ...asked } };
  const [scorer, plainScorer] = [createChannelScorer(task), createChannelScorer(plain)];
  const reporter = createChannelReporter(task);
  const profile = scorer.createProfile(0, 96);
  return (values: readonly number[]) => {
    const score = (by: ChannelScorer) => {
      const out = new Float64Array(scoreSize);
      by.score(0, values, out);
      return out;
    };
    /** What a report says of it; throws for an outline outside the filler. */
    const report = () => {
      const mirror = true;
      const place = (nodes: CurveNodes) => scorer.families[0]!.place(values, nodes);
      return reporter({ mirror, place }).strengthSummary()!;
    };
    scorer.profile(values, profile);
    return { without: score(plainScorer), with: score(scorer), profile: profile.score.slice(), report };
  };
}

describe('strength asked of channels', () => {
  it('is no constraint where nothing is asked', () => {
    expect(limitsStrength(plain)).toBe(false);
    expect(scoresAsking({})([1.2, 1, 0.8]).without[scoreAt.strength]).toBe(0);
  });

  it.each([0.2, 0.5, 0.9, 1.1])('is met where a report says that %d is retained', (leastRetained) => {
    const scores = scoresAsking({ leastRetained });
    for (const values of [
      [1.2, 0.5, 0.5],
      [0.9, 1.4, 1],
      [1, 0.8, 1.2],
    ]) {
      const { report, ...score } = scores(values);
      const { retained } = report();
      // A search takes fewer nodes than a report, and aims 0.3 % beyond what is asked.
      for (const { [scoreAt.strength]: lack } of [score.with, score.profile])
        expect(Math.abs((1.003 - lack!) * leastRetained - retained)).toBeLessThan(0.003);
      // All else stays as it was.
      expect([...score.with.slice(0, scoreAt.strength)]).toEqual([...score.without.slice(0, scoreAt.strength)]);
    }
  });

  it.each([
    ['edge', { distance: 0.1, average: true }],
    ['filler', { distance: 0.6, average: false }],
  ] as const)('is met where a report says that failure starts away from the edge; here: %s', (place, edge) => {
    const scores = scoresAsking({ startsAwayFromEdge: true, edge });
    for (const values of [
      [1.2, 0.5, 0.5],
      [0.9, 1.4, 1],
      [1, 2, 0.8],
    ]) {
      const { report, ...score } = scores(values);
      expect(report().place).toBe(place);
      for (const { [scoreAt.strength]: lead } of [score.with, score.profile])
        expect(lead! > 0, String(values)).toBe(place === 'edge');
    }
  });

  it('lacks all and more where the joint fails in the cure, the further the earlier', () => {
    const cured = (deltaT: number) => {
      const task = { ...plain, loads: { ...plain.loads, cure: { deltaT } }, strength: { ...wish, leastRetained: 0.5 } };
      const out = new Float64Array(scoreSize);
      createChannelScorer(task).score(0, [1.2, 1, 0.8], out);
      return out[scoreAt.strength]!;
    };
    expect(cured(-400)).toBeGreaterThan(1);
    expect(cured(-800)).toBeGreaterThan(cured(-400));
    expect(cured(-800)).toBeLessThan(2);
  });

  it('counts an outline that is too near to the laminate as no better than any that is solved', () => {
    const near = scoresAsking({ leastRetained: 0.5 })([0.3, 1, 0.8]);
    expect(near.with[scoreAt.room]!).toBeGreaterThan(0);
    expect(near.with[scoreAt.strength]!).toBe(2);
  });
});
