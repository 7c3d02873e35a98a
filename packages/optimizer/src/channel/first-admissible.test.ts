import {
  channelRoom,
  createChannelReporter,
  curvatureParameters,
  outlineOf,
  readBrief,
  starterBrief,
} from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import { randomFrom } from '../random.js';
import { createChannelEvaluator } from './evaluator.js';
import { refinePlan } from './find-front.js';
import { firstAdmissible } from './first-admissible.js';
import { searchFamilies } from './search-families.js';

describe('firstAdmissible', () => {
  it('finds a channel of the starter brief at which failure does not start, where the families find none', {
    tags: 'long',
  }, async () => {
    const brief = await readBrief(starterBrief);
    const prepared = preparedTask(brief);
    const channel = { ...prepared.channel, families: ['ellipse' as const] };
    const task = { ...prepared, channel, strength: { ...prepared.strength, startsAwayFromEdge: true } };
    const evaluator = createChannelEvaluator(task);
    const options = { seed: 1, evaluations: 8000 };
    const all = await searchFamilies(evaluator, options, { evaluations: 300 });
    expect(all.common.front()).toHaveLength(0);
    const runs: { evaluations: number }[] = [];
    const plan = refinePlan(all, evaluator, options, runs as never[]);
    const found = await firstAdmissible(all, evaluator, randomFrom(1).split('first admissible'), plan);
    expect(found.length).toBeGreaterThan(0);
    const report = createChannelReporter(task);
    for (const { design, size } of found) {
      const outline = outlineOf({ family: 'spline', parameters: curvatureParameters(design) }, channelRoom(task));
      const { design: reported, strengthSummary } = report(outline);
      const { area } = reported;
      expect(strengthSummary()!.place).not.toBe('edge');
      expect(area / size).toBeCloseTo(1, 3);
    }
    expect(plan.left()).toBe(8000 - all.spent() - runs.reduce((sum, { evaluations }) => sum + evaluations, 0));
  });

  it('asks for nothing that the budget has no room for, of the simplest family where none came near', async () => {
    const brief = await readBrief(
      'host: { kind: plate }\nloads: { farField: { sx: 10 } }\nchannel: { mirror: false, families: [spline, ellipse] }\n',
    );
    const evaluator = createChannelEvaluator(preparedTask(brief));
    const all = await searchFamilies(evaluator, { seed: 1, evaluations: 0 }, { evaluations: 0 });
    const asked: number[] = [];
    const plan = (left: number) => ({
      refine: async (requests: readonly { readonly start: object }[]) => {
        asked.push(requests.length);
        for (const { start } of requests) expect(start).toMatchObject({ family: 1 });
        return requests.map(() => ({ reached: [], stop: 'nothing', evaluations: 0 }));
      },
      left: () => left,
      note: () => {},
      goOn: () => true,
    });
    expect(await firstAdmissible(all, evaluator, randomFrom(1), plan(100))).toEqual([]);
    expect(asked).toEqual([]);
    expect(await firstAdmissible(all, evaluator, randomFrom(1), plan(1e6))).toEqual([]);
    expect(asked).toHaveLength(1);
  });
});
