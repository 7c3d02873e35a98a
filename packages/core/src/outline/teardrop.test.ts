import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { derivativeError, isMirrored, placed, valuesAt } from '../../../../test/fixtures/outline-checks.js';
import { createFamily } from './create-family.js';
import type { Border, OutlineRoom } from './family.js';
import { createOutlineMeasure, measureOutline } from './measure.js';

const room: OutlineRoom = { mirror: true, xMin: -3, xMax: 3, yMin: 0.12, yMax: 3.6, edgeRadius: 0.12 };
const family = createFamily('teardrop', room);
const nowhere: Border = { distance: () => Number.POSITIVE_INFINITY };

function measured(values: readonly number[], count = 256) {
  const m = createOutlineMeasure();
  measureOutline(placed(family, values, count), nowhere, m);
  return m;
}

describe('teardrop family', () => {
  it('has the width and height it is given, at every taper', () => {
    const fractions = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 });
    fc.assert(
      fc.property(fractions, (at) => {
        const values = valuesAt(family, at);
        // A measured width errs by up to d^3/6 of the third derivative, d half a step between nodes: 2.1e-7 with 512 at a taper of 1.5.
        const m = measured(values, 512);
        expect(m.width / values[1]!).toBeCloseTo(1, 6);
        expect(m.height / values[2]!).toBeCloseTo(1, 6);
        expect(m.simple).toBe(true);
      }),
      { numRuns: 60 },
    );
  });

  it('has the area pi width height I1(taper) / (taper width at taper)', () => {
    // int cos^2 s exp(-k sin s) ds = 2 pi I1(k)/k; I1(1) = 0.565159104 (Abramowitz & Stegun, 1964, table 9.8: e^-1 I1(1) = 0.2079104154)
    const sine = (1 - Math.sqrt(5)) / 2;
    const widest = Math.sqrt(1 - sine * sine) * Math.exp(-sine);
    const area = (2 / (2 * widest)) * (3 / 2) * 2 * Math.PI * 0.2079104154 * Math.E;
    expect(measured([1.5, 2, 3, 1]).area).toBeCloseTo(area, 8);
  });

  it('is an ellipse without taper', () => {
    const drop = placed(family, [1.5, 2, 3, 0], 64);
    const ellipse = placed(createFamily('ellipse', room), [1.5, 2, 3], 64);
    for (const key of ['x', 'y', 'dx', 'dy', 'ddx', 'ddy'] as const)
      for (let j = 0; j < 64; j++) expect(drop[key][j]).toBeCloseTo(ellipse[key][j]!, 13);
  });

  it('turns upside down with the sign of the taper', () => {
    const up = placed(family, [1.5, 2, 3, 0.8], 64);
    const down = placed(family, [1.5, 2, 3, -0.8], 64);
    for (let j = 0; j < 32; j++) {
      expect(down.x[j]).toBeCloseTo(up.x[31 - j]!, 13);
      expect(down.y[j]! - 1.5).toBeCloseTo(1.5 - up.y[31 - j]!, 13);
    }
    // The tip is the sharp end: above for a positive taper.
    expect(up.x[31]).toBeLessThan(up.x[0]!);
  });

  it('has hollow flanks beyond a taper of 0.8 and none below', () => {
    const leastTurning = (taper: number) => {
      const n = placed(family, [1.5, 2, 3, taper], 256);
      return Math.min(...Array.from(n.dx, (dx, j) => dx * n.ddy[j]! - n.dy[j]! * n.ddx[j]!));
    };
    expect(leastTurning(0.8)).toBeGreaterThan(0);
    expect(leastTurning(0.82)).toBeLessThan(0);
  });

  it('gives the derivatives of its positions and is mirror-symmetric to the last bit', () => {
    const nodes = placed(family, [1.5, 2, 3, 1.2], 64);
    expect(derivativeError(nodes)).toBeLessThan(1e-11);
    expect(isMirrored(nodes)).toBe(true);
    const free = createFamily('teardrop', { ...room, mirror: false });
    expect(derivativeError(placed(free, [0.2, 1.5, 2, 3, -1.2, 40], 64))).toBeLessThan(1e-11);
  });
});
