import { describe, expect, it } from 'vitest';
import { nusselt } from './heat-transfer.js';

/** Eigenvalues and coefficients of Graetz's series for a tube with a wall of one temperature (Shah & London 1978). */
const graetz = [
  [2.704364, 0.748775],
  [6.679032, 0.543828],
  [10.67338, 0.462861],
  [14.671079, 0.415418],
  [18.669872, 0.382919],
] as const;

/** Mean Nusselt number over `x = length / (diameter Re Pr)` of developed flow. */
function graetzMean(x: number): number {
  const mixed = graetz.reduce((sum, [lambda, g]) => sum + (8 * g * Math.exp(-2 * lambda ** 2 * x)) / lambda ** 2, 0);
  return -Math.log(mixed) / (4 * x);
}

describe('Nusselt number', () => {
  it("is within 4 % of Graetz's series where flow is developed long before its temperature is (high Prandtl number)", () => {
    for (const x of [0.01, 0.02, 0.05, 0.1, 0.5]) {
      const [reynolds, prandtl] = [100, 1e5];
      expect(Math.abs(nusselt(reynolds, prandtl, x * reynolds * prandtl) / graetzMean(x) - 1)).toBeLessThan(0.04);
    }
  });

  it('falls to 3.66 in a long tube', () => {
    expect(nusselt(1000, 7, 1e9)).toBeCloseTo(3.66, 1);
  });

  it('passes without a jump from laminar through transition to turbulent, rising', () => {
    for (const limit of [2300, 4000])
      expect(nusselt(limit * (1 - 1e-9), 7, 200) / nusselt(limit * (1 + 1e-9), 7, 200)).toBeCloseTo(1, 6);
    let before = 0;
    for (let reynolds = 100; reynolds < 1e5; reynolds *= 1.02) {
      expect(nusselt(reynolds, 7, 200)).toBeGreaterThan(before);
      before = nusselt(reynolds, 7, 200);
    }
  });

  it('is within 10 % of Dittus and Boelter for heating where both hold', () => {
    for (const reynolds of [2e4, 5e4, 1e5])
      expect(Math.abs(nusselt(reynolds, 1, 1e6) / (0.023 * reynolds ** 0.8) - 1)).toBeLessThan(0.1);
  });
});
