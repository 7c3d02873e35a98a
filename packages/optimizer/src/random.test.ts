import { describe, expect, it } from 'vitest';
import { randomFrom } from './random.js';

const draw = (count: number, next: () => number) => Array.from({ length: count }, next);
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

describe('random source', () => {
  it('repeats itself from the same seed, given as a number or as text', () => {
    const first = draw(20, randomFrom(5).uniform);
    expect(draw(20, randomFrom('5').uniform)).toEqual(first);
    expect(draw(20, randomFrom(6).uniform)).not.toEqual(first);
  });

  it('splits into streams that depend on seed and name, not on what was drawn', () => {
    const random = randomFrom(1);
    const early = draw(5, random.split('mutation').uniform);
    draw(100, random.uniform);
    expect(draw(5, random.split('mutation').uniform)).toEqual(early);
    expect(draw(5, random.split('selection').uniform)).not.toEqual(early);
  });

  it('draws uniform, normal and integer numbers with the moments of their distributions', () => {
    const random = randomFrom('moments');
    const uniform = draw(20_000, random.uniform);
    expect(mean(uniform)).toBeCloseTo(1 / 2, 2);
    expect(mean(uniform.map((u) => (u - 0.5) ** 2))).toBeCloseTo(1 / 12, 2);
    const normal = draw(20_000, random.normal);
    expect(Math.abs(mean(normal))).toBeLessThan(0.03);
    expect(mean(normal.map((z) => z * z))).toBeCloseTo(1, 1);
    expect(mean(normal.map((z) => z ** 4))).toBeCloseTo(3, 0);
    const counts = [0, 0, 0];
    for (const value of draw(30_000, () => random.integer(3))) counts[value]! += 1;
    for (const count of counts) expect(Math.abs(count - 10_000)).toBeLessThan(400);
  });

  it('shuffles without losing an item, every item equally often first', () => {
    const random = randomFrom(2);
    const first = [0, 0, 0, 0];
    for (let round = 0; round < 8000; round++) {
      const items = [0, 1, 2, 3];
      random.shuffle(items);
      expect([...items].sort()).toEqual([0, 1, 2, 3]);
      first[items[0]!]! += 1;
    }
    for (const count of first) expect(Math.abs(count - 2000)).toBeLessThan(200);
  });
});
