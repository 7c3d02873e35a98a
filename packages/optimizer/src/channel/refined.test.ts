import { describe, expect, it } from 'vitest';
import type { FamilySearch } from './family-search.js';
import { gapStarts } from './gaps.js';
import { costBetween, frontOf, nearestTo } from './refined.js';
import { sweepSteps } from './sweep.js';

const front = [
  { size: 1, cost: 10 },
  { size: 3, cost: 20 },
  { size: 4, cost: 50 },
];

describe('what refinement knows of a front', () => {
  it('is by growing size, without those that another is as good as', () => {
    expect(frontOf([front[2]!, { size: 2, cost: 20 }, front[0]!, front[1]!, { size: 3.5, cost: 60 }])).toEqual(front);
  });

  it('costs what lies on the line between neighbours; that of the smallest below it, without bound above the largest', () => {
    expect([0.5, 1, 2, 3.5, 4].map((size) => costBetween(front, size))).toEqual([10, 10, 15, 35, 50]);
    expect(costBetween(front, 4.1)).toBe(Number.POSITIVE_INFINITY);
  });

  it('is nearest by size', () => {
    expect([0, 1.9, 2.1, 9].map((size) => nearestTo(size, front).size)).toEqual([1, 1, 3, 4]);
  });

  it('is nothing where a family has found nothing: no gaps, and sweeps without descents', () => {
    const search = { known: () => [] } as unknown as FamilySearch;
    expect(gapStarts(search, 5, new Set(), () => false)).toEqual([]);
    const steps = sweepSteps(search, { end: 5, direction: 'up', aside: false });
    expect(steps.length).toBeGreaterThan(0);
    expect(steps.flatMap((step) => step())).toEqual([]);
  });
});
