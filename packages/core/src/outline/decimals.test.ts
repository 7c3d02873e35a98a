import { describe, expect, it } from 'vitest';
import { lastDecimal } from './decimals.js';

const waves = (decimals: number, scale = 1) =>
  Float64Array.from({ length: 50 }, (_, i) => Number((scale * Math.sin(i)).toFixed(decimals)));

describe('lastDecimal', () => {
  it.each([1, 3, 4, 7, 9])('tells coordinates of %i decimals', (decimals) => {
    expect(lastDecimal(waves(decimals), waves(decimals))).toBeCloseTo(10 ** -decimals, 15);
    // The one with more decimals counts.
    expect(lastDecimal(waves(2), waves(decimals))).toBeCloseTo(10 ** -Math.max(2, decimals), 15);
  });

  it('tells numbers that were not rounded, of any size', () => {
    for (const scale of [1e-3, 1, 1e3]) {
      expect(lastDecimal(waves(20, scale))).toBe(0);
      expect(
        lastDecimal(
          waves(4).map((v) => v * 1.1),
          waves(20, scale),
        ),
      ).toBe(0);
    }
  });
});
