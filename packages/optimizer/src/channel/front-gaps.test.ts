import { describe, expect, it } from 'vitest';
import { between } from './front-gaps.js';
import type { Refined } from './refined.js';

const refined = (size: number, cost: number): Refined => ({ size, cost }) as Refined;

describe('between', () => {
  it('asks for sizes in the gaps of a front, of the designs on both sides', () => {
    const front = Array.from({ length: 11 }, (_, k) => refined(5 * 1.01 ** k, 100 * 1.012 ** k));
    const wanted = between(front);
    expect(wanted.map(({ from }) => front.indexOf(from as Refined))).toEqual([2, 7, 10]);
    for (const { from, shares } of wanted)
      for (const share of shares) {
        expect(Math.abs(share)).toBeLessThan(0.06);
        for (const { size } of front) expect(Math.abs((from.size * (1 + share)) / size - 1)).toBeGreaterThan(0.001);
      }
    // One place to a gap, the step being 0.6 % at least; those between two of the middles are asked of both.
    const sizes = wanted.flatMap(({ from, shares }) => shares.map((share) => from.size * (1 + share)));
    const gaps = front.slice(1).map((above, k) => sizes.filter((size) => size > front[k]!.size && size < above.size));
    expect(gaps.every(({ length }) => length > 0)).toBe(true);
    expect(gaps[0]).toHaveLength(gaps[1]!.length);
    expect(gaps[4]!.length).toBe(2 * gaps[0]!.length);
  });

  it('leaves a flat front and what lies far from slopes', () => {
    expect(between([refined(1, 10), refined(1.02, 10.001)])).toEqual([]);
    expect(
      between([refined(1, 10), refined(3, 30)])
        .flatMap(({ shares }) => shares)
        .every((share) => Math.abs(share) < 0.06),
    ).toBe(true);
  });
});
