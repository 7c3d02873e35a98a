import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createFamily } from './create-family.js';
import type { OutlineRoom } from './family.js';
import { derivativeError, isMirrored, placed, valuesAt } from './test/outline-checks.js';

const room: OutlineRoom = { mirror: true, xMin: -3, xMax: 3, yMin: 0.12, yMax: 3.6, edgeRadius: 0.12 };
const mirror = createFamily('spline', room);
const free = createFamily('spline', { ...room, mirror: false });
const fractions = (length: number, around: number) =>
  fc.array(fc.double({ min: 0.5 - around, max: 0.5 + around, noNaN: true }), { minLength: length, maxLength: length });

describe('spline family', () => {
  it('has 17 and 21 parameters', () => {
    expect(mirror.parameters.length).toBe(17);
    expect(free.parameters.length).toBe(21);
    expect(new Set(free.parameters.map((p) => p.name)).size).toBe(21);
  });

  it.each([
    ['mirror-symmetric', mirror],
    ['free', free],
  ])('gives the derivatives of its positions, %s', (_, family) => {
    fc.assert(
      fc.property(fractions(family.parameters.length, 0.15), (at) => {
        expect(derivativeError(placed(family, valuesAt(family, at), 256))).toBeLessThan(1e-8);
      }),
      { numRuns: 10, seed: 1 },
    );
  });

  it('is mirror-symmetric to the last bit', () => {
    fc.assert(
      fc.property(fractions(17, 0.5), (at) => {
        expect(isMirrored(placed(mirror, valuesAt(mirror, at), 64))).toBe(true);
      }),
      { numRuns: 20 },
    );
  });
});
