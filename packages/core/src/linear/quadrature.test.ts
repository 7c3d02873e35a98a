import { describe, expect, it } from 'vitest';
import { gauss2, gauss3, gauss4, gauss5, onUnitInterval } from './quadrature.js';

describe('Gauss-Legendre rules', () => {
  it.each([
    [2, gauss2],
    [3, gauss3],
    [4, gauss4],
    [5, gauss5],
  ])('of %d points integrate every power up to 2 n - 1, and not the next', (n, rule) => {
    expect(rule).toHaveLength(n);
    const errorOf = (power: number) =>
      Math.abs(onUnitInterval(rule).reduce((sum, [x, weight]) => sum + weight * x ** power, 0) - 1 / (power + 1));
    for (let power = 0; power < 2 * n; power++) expect(errorOf(power)).toBeLessThan(1e-15);
    expect(errorOf(2 * n)).toBeGreaterThan(1e-7);
  });
});
