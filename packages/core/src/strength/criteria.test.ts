import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  delaminationFactor,
  principalFactor,
  tensionFactor,
  withstandsDelamination,
  withstandsSplitting,
} from './criteria.js';

const Z = 48;
const S = 79;
const open = (n: number, s: number) => ({ n, s });
const all = (n: number, t: number, s: number) => ({ n, t, s });
const stress = fc.double({ min: -40, max: 40, noNaN: true });

/** The least factor at which a convex index passes 1, by bisection: no closed form behind it. */
function bisect(index: (factor: number) => number): number {
  if (index(0) >= 1) return 0;
  let low = 0;
  let high = 1;
  while (index(high) < 1) {
    low = high;
    high *= 2;
    if (high > 1e9) return Number.POSITIVE_INFINITY;
  }
  for (let k = 0; k < 200; k++) {
    const middle = (low + high) / 2;
    if (index(middle) < 1) low = middle;
    else high = middle;
  }
  return high;
}

const same = (value: number, expected: number) => {
  // A factor beyond 1e7 is a load that does next to nothing.
  if (value > 1e7) expect(expected).toBeGreaterThan(1e6);
  else expect(Math.abs(value - expected)).toBeLessThan(1e-6 * (1 + expected));
};

/** Shares of a factor on either side of it. */
const sides = [0.5, 1 - 1e-6, 1 + 1e-6, 2];

describe('delamination onset', () => {
  it('follows the quadratic criterion of Brewer & Lagace in its closed cases', () => {
    expect(delaminationFactor(open(0, 0), open(Z, 0), Z, S)).toBeCloseTo(1, 14);
    expect(delaminationFactor(open(0, 0), open(0, -S), Z, S)).toBeCloseTo(1, 14);
    // Both alike: each at 1/sqrt 2 of its strength.
    expect(delaminationFactor(open(0, 0), open(Z, S), Z, S)).toBeCloseTo(Math.SQRT1_2, 14);
    // A pre-stress of 0.6 Z leaves 0.8 S of shear.
    expect(delaminationFactor(open(0.6 * Z, 0), open(0, S), Z, S)).toBeCloseTo(0.8, 14);
  });

  it('lets compression close: only shear counts, and pure compression never delaminates', () => {
    expect(delaminationFactor(open(0, 0), open(-10 * Z, S), Z, S)).toBeCloseTo(1, 14);
    expect(delaminationFactor(open(-5 * Z, 0.5 * S), open(0, S), Z, S)).toBeCloseTo(0.5, 14);
    expect(delaminationFactor(open(0, 0), open(-Z, 0), Z, S)).toBe(Number.POSITIVE_INFINITY);
    expect(delaminationFactor(open(0.5 * Z, 0.5 * S), open(-Z, 0), Z, S)).toBe(Number.POSITIVE_INFINITY);
    expect(delaminationFactor(open(0.5 * Z, 0), open(0, 0), Z, S)).toBe(Number.POSITIVE_INFINITY);
  });

  it('is zero where the fixed part fails alone, and NaN for NaN', () => {
    expect(delaminationFactor(open(Z, 0), open(1, 1), Z, S)).toBe(0);
    expect(delaminationFactor(open(-Z, -S), open(1, 1), Z, S)).toBe(0);
    expect(delaminationFactor(open(Number.NaN, 0), open(1, 1), Z, S)).toBeNaN();
    expect(delaminationFactor(open(0, 0), open(1, Number.NaN), Z, S)).toBeNaN();
  });

  it('meets the criterion first at its factor, closed or open', () => {
    fc.assert(
      fc.property(stress, stress, stress, stress, (n0, s0, n1, s1) => {
        const index = (f: number) => (Math.max(0, n0 + f * n1) / Z) ** 2 + ((s0 + f * s1) / S) ** 2;
        same(delaminationFactor(open(n0, s0), open(n1, s1), Z, S), bisect(index));
      }),
    );
  });

  it('is withstood up to its factor and not beyond', () => {
    fc.assert(
      fc.property(stress, stress, stress, stress, (n0, s0, n1, s1) => {
        const factor = delaminationFactor(open(n0, s0), open(n1, s1), Z, S);
        const withstands = (upTo: number) => withstandsDelamination(open(n0, s0), open(n1, s1), Z, S, upTo);
        if (factor > 1e7) expect(withstands(1e6)).toBe(true);
        else if (factor === 0) for (const upTo of [0, 0.1, 1, 10]) expect(withstands(upTo)).toBe(false);
        else for (const side of sides) expect(withstands(side * factor)).toBe(side < 1);
      }),
    );
    expect(withstandsDelamination(open(0, 0), open(0, 1), Z, S, Number.POSITIVE_INFINITY)).toBe(false);
    expect(withstandsDelamination(open(Number.NaN, 0), open(0, 1), Z, S, 1)).toBe(false);
  });

  it('depends on stress over strength only, at absurd scales', () => {
    const [n0, s0, n1, s1] = [5, -20, 30, 11] as const;
    const factor = delaminationFactor(open(n0, s0), open(n1, s1), Z, S);
    for (const unit of [1e-90, 1e6, 1e90])
      expect(
        delaminationFactor(open(n0 * unit, s0 * unit), open(n1 * unit, s1 * unit), Z * unit, S * unit) / factor,
      ).toBeCloseTo(1, 12);
  });
});

describe('largest principal stress', () => {
  it('follows Mohr in its closed cases', () => {
    expect(principalFactor(all(0, 0, 0), all(Z, -3 * Z, 0), Z)).toBeCloseTo(1, 14);
    // Pure shear: the principal stress is the shear.
    expect(principalFactor(all(0, 0, 0), all(0, 0, Z / 2), Z)).toBeCloseTo(2, 14);
    expect(principalFactor(all(0, 0, 0), all(Z / 2, Z / 2, Z / 2), Z)).toBeCloseTo(1, 14);
    expect(principalFactor(all(0, 0, 0), all(-1, -2, 0.5), Z)).toBe(Number.POSITIVE_INFINITY);
    expect(principalFactor(all(Z, 0, 0), all(1, 1, 1), Z)).toBe(0);
    expect(principalFactor(all(2 * Z, 3 * Z, 0), all(1, 1, 1), Z)).toBe(0);
    expect(principalFactor(all(0, 0, 0), all(Number.NaN, 0, 0), Z)).toBeNaN();
  });

  it('reaches the strength first at its factor', () => {
    fc.assert(
      fc.property(stress, stress, stress, stress, stress, stress, (n0, t0, s0, n1, t1, s1) => {
        const index = (f: number) => {
          const [n, t, s] = [n0 + f * n1, t0 + f * t1, s0 + f * s1];
          return ((n + t) / 2 + Math.hypot((n - t) / 2, s)) / Z;
        };
        same(principalFactor(all(n0, t0, s0), all(n1, t1, s1), Z), bisect(index));
      }),
    );
  });

  it('is withstood up to its factor and not beyond', () => {
    fc.assert(
      fc.property(stress, stress, stress, stress, stress, stress, (n0, t0, s0, n1, t1, s1) => {
        const factor = principalFactor(all(n0, t0, s0), all(n1, t1, s1), Z);
        const withstands = (upTo: number) => withstandsSplitting(all(n0, t0, s0), all(n1, t1, s1), Z, upTo);
        if (factor > 1e7) expect(withstands(1e6)).toBe(true);
        else if (factor === 0) for (const upTo of [0, 0.1, 1, 10]) expect(withstands(upTo)).toBe(false);
        else for (const side of sides) expect(withstands(side * factor)).toBe(side < 1);
      }),
    );
    expect(withstandsSplitting(all(0, 0, 0), all(1, 0, 0), Z, Number.POSITIVE_INFINITY)).toBe(false);
    expect(withstandsSplitting(all(Number.NaN, 0, 0), all(1, 0, 0), Z, 1)).toBe(false);
  });

  it('is the same in any axes', () => {
    const turned = (n: number, t: number, s: number, angle: number) => {
      const [c, d] = [Math.cos(angle), Math.sin(angle)];
      return [
        n * c * c + t * d * d + 2 * s * c * d,
        n * d * d + t * c * c - 2 * s * c * d,
        (t - n) * c * d + s * (c * c - d * d),
      ] as const;
    };
    const factor = principalFactor(all(3, -7, 12), all(20, 9, -14), Z);
    for (const angle of [0.3, 1.1, 2.5])
      expect(principalFactor(all(...turned(3, -7, 12, angle)), all(...turned(20, 9, -14, angle)), Z)).toBeCloseTo(
        factor,
        12,
      );
  });
});

describe('hoop tension', () => {
  it('leaves what the pre-stress left', () => {
    expect(tensionFactor(0, 2 * Z, Z)).toBe(0.5);
    expect(tensionFactor(Z / 2, Z, Z)).toBe(0.5);
    expect(tensionFactor(Z, 1, Z)).toBe(0);
    expect(tensionFactor(-Z, -1, Z)).toBe(Number.POSITIVE_INFINITY);
    expect(tensionFactor(Number.NaN, 1, Z)).toBeNaN();
  });
});
