import { describe, expect, it } from 'vitest';
import { bestBySize, evenlySpread } from './by-size.js';

describe('designs spread evenly in size', () => {
  it('hold both ends and those nearest to even steps between', () => {
    expect(evenlySpread([0, 0.1, 0.2, 4.9, 5.2, 9, 10], 3)).toEqual([0, 3, 6]);
  });

  it('are all where there are no more than wanted', () => {
    expect(evenlySpread([3, 1, 2], 3)).toEqual([1, 2, 0]);
    expect(evenlySpread([], 3)).toEqual([]);
  });

  it('name none twice, also where a gap has nothing to offer', () => {
    expect(evenlySpread([0, 0.01, 0.02, 0.03, 10], 4)).toEqual([0, 3, 4]);
  });

  it('may be one or none', () => {
    expect(evenlySpread([1, 2, 3], 1)).toEqual([0]);
    expect(evenlySpread([1, 2, 3], 0)).toEqual([]);
  });
});

describe('the best by size', () => {
  const best = (pairs: readonly (readonly [number, number])[]) =>
    bestBySize(
      pairs,
      ([size]) => size,
      ([, cost]) => cost,
    );

  it('are those that no larger one of no more cost beats, by growing size', () => {
    const pairs = [
      [3, 5],
      [1, 2],
      [2, 5],
      [2, 4],
      [1, 1],
    ] as const;
    expect(best(pairs)).toEqual([
      [1, 1],
      [2, 4],
      [3, 5],
    ]);
  });

  it('leave out what costs infinitely much, and equals but one', () => {
    expect(
      best([
        [4, Number.POSITIVE_INFINITY],
        [1, 1],
        [1, 1],
      ]),
    ).toEqual([[1, 1]]);
  });
});
