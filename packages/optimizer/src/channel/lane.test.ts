import { describe, expect, it } from 'vitest';
import { afterLeg, laneFrom, nextLeg } from './lane.js';
import type { Refined } from './refined.js';

const at = (size: number, cost: number): Refined => ({
  size,
  cost,
  design: {
    form: {
      mirror: true,
      knots: new Float64Array(15),
      spacing: { even: new Float64Array(1), odd: new Float64Array(0) },
    },
    values: Float64Array.of(size, cost),
    nodes: 64,
  },
  locallyOptimalWithin: 0,
});
/** A front whose cost grows as the square of the size. */
const square = (...sizes: number[]) => sizes.map((size) => at(size, size ** 2));

describe('a lane', () => {
  it('begins at the smallest of some outlines, and needs two', () => {
    expect(laneFrom(square(9, 10), -1)!.head.size).toBe(9);
    expect(laneFrom(square(9), -1)).toBeUndefined();
  });

  it.each([1, -1] as const)(
    'goes by steps of no more than 7 %% of the area and about 12 %% of the cost, way %d',
    (way) => {
      const lane = { way, head: at(9, 81), before: at(10, 100) };
      const { areas } = nextLeg(lane, square(1, 9, 10));
      for (const [k, area] of areas.entries()) {
        const share = way * Math.log(area / (areas[k - 1] ?? 9));
        expect(share).toBeGreaterThan(0.02);
        expect(share).toBeLessThan(0.07);
        expect(2 * share).toBeCloseTo(0.12, 1);
      }
    },
  );

  it('goes on from another outline where that is better at its size', () => {
    const lane = { way: -1 as const, head: at(9, 81), before: at(10, 100) };
    expect(nextLeg(lane, square(1, 10)).start).toBe(lane.head.design);
    const better = at(9.1, 70);
    expect(nextLeg(lane, [...square(1), better, ...square(10)]).start).toBe(better.design);
  });

  it('ends where a leg does not reach its first place, or finds nothing better than what is known', () => {
    const known = square(1, 9, 10);
    const lane = { way: -1 as const, head: known[1]!, before: known[2]! };
    const leg = nextLeg(lane, known);
    const lower = leg.areas.map((area) => at(area, area ** 2));
    expect(afterLeg(lane, leg, lower, known)!.head).toBe(lower.at(-1));
    // An outline that need not be as large.
    expect(afterLeg(lane, leg, [at(8.9, 60)], known)).toBeUndefined();
    expect(afterLeg(lane, leg, [], known)).toBeUndefined();
    expect(afterLeg(lane, leg, lower, [...lower].reverse())).toBeUndefined();
  });
});
