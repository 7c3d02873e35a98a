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

it('takes the simplest of several families, and gives none where none is admissible', async () => {
  const brief = await readBrief(
    'host: { kind: plate }\nloads: { farField: { sx: 10 } }\nchannel: { mirror: false, families: [spline, ellipse] }\n',
  );
  const evaluator = createChannelEvaluator(preparedTask(brief));
  const all = await searchFamilies(evaluator, { seed: 1, evaluations: 0 }, { evaluations: 0 });
  const plan = { refine: async () => [], left: () => 1e5, note: () => {}, goOn: () => true };
  const [found] = await smallOutlines(evaluator, all, randomFrom(1), plan);
  expect(all.searches[found!.start.family]!.family.name).toBe('ellipse');
  const walled = {
    ...evaluator,
    score: async (family: number, vectors: readonly Float64Array[]) =>
      (await evaluator.score(family, vectors)).map((score) =>
        Float64Array.from(score).fill(1, scoreAt.room, scoreAt.room + 1),
      ),
  };
  expect(await smallOutlines(walled, all, randomFrom(1), plan)).toEqual([]);
});
