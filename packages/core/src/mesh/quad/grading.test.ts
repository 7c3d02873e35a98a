import { describe, expect, it } from 'vitest';
import { graded, growing, withMiddles } from './grading.js';

describe('graded', () => {
  it('spans the length with steps of about the wanted size, rising', () => {
    const size = growing(20, 0.1, 0.4, 0.3, 2);
    const ends = graded(20, size);
    expect(ends[0]).toBe(0);
    expect(ends.at(-1)).toBe(20);
    for (let i = 1; i < ends.length; i++) {
      const step = ends[i]! - ends[i - 1]!;
      expect(step / size((ends[i]! + ends[i - 1]!) / 2)).toBeGreaterThan(0.8);
      expect(step / size((ends[i]! + ends[i - 1]!) / 2)).toBeLessThan(1.25);
    }
  });

  it('keeps the least number of steps and is the same at any scale', () => {
    expect(graded(0.1, () => 5, 2)).toHaveLength(3);
    const one = graded(1, growing(1, 0.05, 0.2, 0.3, 1));
    graded(1e-3, growing(1e-3, 5e-5, 2e-4, 0.3, 1e-3)).forEach((end, i) => {
      expect(end).toBeCloseTo(1e-3 * one[i]!, 15);
    });
  });

  it('refuses a length without steps, NaN among them', () => {
    expect(() => graded(Number.NaN, () => 1)).toThrow(RangeError);
    expect(() => graded(1, () => 0)).toThrow(RangeError);
  });

  it('puts middles between the ends', () => {
    expect(withMiddles([0, 1, 4])).toEqual([0, 0.5, 1, 2.5, 4]);
  });
});
