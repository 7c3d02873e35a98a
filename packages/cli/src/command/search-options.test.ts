import { availableParallelism } from 'node:os';
import { readBrief, starterBrief } from '@lumenfront/core';
import { expect, it } from 'vitest';
import { workersFor } from './search-options.js';

it('starts as many workers as are worth it for the outlines of a search, and those that are asked for', async () => {
  const brief = await readBrief(starterBrief);
  const workers = (evaluations: number, given = {}) =>
    workersFor(given, { ...brief, search: { ...brief.search, evaluations } });
  expect([1, 400, 4000].map((evaluations) => workers(evaluations))).toEqual([1, 1, 1]);
  expect(workers(6000)).toBe(Math.min(2, availableParallelism()));
  expect(workers(1e9)).toBe(availableParallelism());
  expect(workers(400, { workers: 3 })).toBe(3);
});
