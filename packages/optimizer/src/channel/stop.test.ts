import { readBrief, scoreSize } from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import { type ChannelEvaluator, createChannelEvaluator, findFront, pickLargest } from './index.js';

const brief = await readBrief('host: { kind: plate }\nloads: { farField: { sx: 10 } }\n');
const evaluator = createChannelEvaluator(preparedTask(brief));

describe('a search in one thread', () => {
  it('lets timers through, one of which calls it off', async () => {
    for (const search of [findFront, pickLargest]) {
      const calledOff = new AbortController();
      const timer = setTimeout(() => calledOff.abort(), 30);
      const found = await search(evaluator, { seed: 1, evaluations: 1e7, allow: 1e3, signal: calledOff.signal });
      clearTimeout(timer);
      expect(found.stop).toBe('aborted');
      expect(found.evaluations).toBeGreaterThan(0);
    }
  });

  it('ends whenever it is called off, with what it has by then', { tags: 'long' }, async () => {
    const free = createChannelEvaluator(
      preparedTask(
        await readBrief(
          'host: { kind: plate }\nloads: { farField: { sx: 10 } }\nchannel: { mirror: false, families: [ellipse, spline] }\n',
        ),
      ),
    );
    for (const search of [findFront, pickLargest]) {
      let evaluations = 0;
      for (let asked = 0; asked < 300; asked = 1 + 2 * asked) {
        let left = asked;
        const signal = {
          get aborted() {
            return left-- <= 0;
          },
        };
        const found = await search(free, { seed: 1, evaluations: 600, allow: 1e3, signal });
        if (left < 0) expect(found.stop).toBe('aborted');
        expect(found.evaluations).toBeGreaterThanOrEqual(evaluations);
        evaluations = found.evaluations;
      }
      expect(evaluations).toBeGreaterThan(0);
    }
  });

  it('says that it ended by itself', async () => {
    expect((await findFront(evaluator, { seed: 1, evaluations: 200 })).stop).toBe('finished');
  });
});

describe('an evaluator of somebody else', () => {
  const withScores = (change: (scores: readonly ArrayLike<number>[]) => readonly ArrayLike<number>[]) =>
    ({ ...evaluator, score: async (f, x) => change(await evaluator.score(f, x)) }) satisfies ChannelEvaluator;

  it('is refused where answers are missing or too short', async () => {
    const options = { seed: 1, evaluations: 200 };
    const cut = withScores((scores) => scores.map((score) => Array.from(score).slice(0, 6)));
    await expect(findFront(cut, options)).rejects.toThrow(`evaluator.score: expected ${scoreSize} values to a score`);
    const fewer = withScores((scores) => scores.slice(1));
    await expect(findFront(fewer, options)).rejects.toThrow('answers, in the order of what was asked, received');
  });
});
