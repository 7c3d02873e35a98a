import {
  type ChannelTask,
  createTask,
  type OutlineFamily,
  readBrief,
  starterBrief,
  taskFamilies,
} from '@lumenfront/core';
import { beforeAll, describe, expect, it } from 'vitest';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import { randomFrom } from '../random.js';
import { createChannelEvaluator } from './evaluator.js';
import { FamilySearch } from './family-search.js';
import { firstOutlines } from './start.js';

let task: ChannelTask;
let family: OutlineFamily;
/** The same family, its parameters under names that say nothing. */
let renamed: OutlineFamily;

beforeAll(async () => {
  const brief = await readBrief(starterBrief);
  const { channel } = brief;
  task = createTask({ ...brief, channel: { ...channel, families: ['spline'] } }, preparedTask(brief).model);
  family = taskFamilies(task)[0]!;
  renamed = { ...family, parameters: family.parameters.map((one, i) => ({ ...one, name: `p${i}` })) };
});

describe('where a search begins', () => {
  it('is what the family says of its parameters, not what it calls them', () => {
    const drawn = (one: OutlineFamily) => firstOutlines(one, 50, randomFrom(4));
    expect(drawn(renamed)).toEqual(drawn(family));
  });

  it.each([1, 2, 3])('finds as much under any names, seed %d', async (seed) => {
    const evaluator = createChannelEvaluator(task);
    const found = async (one: OutlineFamily) => {
      const search = new FamilySearch(one, 0, randomFrom(seed), evaluator);
      await search.evolve(
        [],
        1000,
        () => {},
        () => true,
      );
      return search.known();
    };
    const named = await found(family);
    expect(named.length).toBeGreaterThan(5);
    expect(await found(renamed)).toEqual(named);
  });

  it('draws small and calm values where they are asked for, within the range', () => {
    const parameter = { name: 'a', unit: '1', lower: -2, upper: 2, meaning: '' } as const;
    const firsts = (start?: 'small' | 'calm') => {
      const one = { ...family, parameters: [start === undefined ? parameter : { ...parameter, start }] };
      return firstOutlines(one, 2000, randomFrom(1)).map(([value]) => value!);
    };
    const mean = (values: number[]) => values.reduce((a, b) => a + b) / values.length;
    expect(Math.max(...firsts('calm').map(Math.abs))).toBeLessThanOrEqual(0.4);
    // The square of an even share has the mean 1/3.
    expect(mean(firsts('small'))).toBeCloseTo(-2 + 4 / 3, 1);
    expect(mean(firsts())).toBeCloseTo(0, 1);
  });
});
