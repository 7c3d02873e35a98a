import { createChannelScorer, readBrief, scoreAt, scoreSize, starterBrief } from '@lumenfront/core';
import { expect, it } from 'vitest';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import { randomFrom } from '../random.js';
import { createChannelEvaluator } from './index.js';
import { leastForRefinement } from './refine-front.js';
import { searchFamilies } from './search-families.js';
import { smallOutlines } from './small-outlines.js';

it('finds where a small outline of the starter brief is stressed least, and spends nothing where that leaves too little', async () => {
  const task = preparedTask(await readBrief(starterBrief));
  const evaluator = createChannelEvaluator(task);
  const all = await searchFamilies(evaluator, { seed: 1, evaluations: 0 }, { evaluations: 0 });
  let spent = 0;
  const plan = (left: number) => ({
    refine: async () => [],
    left: () => left,
    note: ({ evaluations }: { readonly evaluations: number }) => {
      spent += evaluations;
    },
    goOn: () => true,
  });
  expect(await smallOutlines(evaluator, all, randomFrom(1), plan(leastForRefinement))).toEqual([]);
  expect(spent).toBe(0);
  const [best, ...others] = await smallOutlines(evaluator, all, randomFrom(1), plan(1e5));
  expect(others).toEqual([]);
  expect(spent).toBeLessThan(50);
  const { family, x } = best!.start;
  expect(best!.size).toBeLessThan(0.5);
  // As good as the best of a hundred of its form all along the axis, within what lies between two looks.
  const scorer = createChannelScorer(task);
  const score = new Float64Array(scoreSize);
  const costs = Array.from({ length: 100 }, (_, k) => {
    scorer.score(family, Float64Array.of(0.5 + 0.047 * k, x[1]!, x[2]!), score);
    return score[scoreAt.room]! <= 0 ? score[scoreAt.cost]! : Number.POSITIVE_INFINITY;
  });
  const least = Math.min(...costs);
  expect(best!.cost).toBeGreaterThan(0.999 * least);
  expect(best!.cost).toBeLessThan(1.06 * least);
});
