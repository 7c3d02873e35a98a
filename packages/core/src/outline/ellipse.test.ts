import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { derivativeError, isMirrored, placed, valuesAt } from '../../../../test/fixtures/outline-checks.js';
import { createFamily } from './create-family.js';
import type { OutlineRoom } from './family.js';

const room: OutlineRoom = { mirror: true, xMin: -3, xMax: 3, yMin: 0, yMax: 4, edgeRadius: 0.1 };

describe('ellipse family', () => {
  it('has position and size as parameters, and a turn where nothing must be mirror-symmetric', () => {
    expect(createFamily('ellipse', room).parameters.map((p) => p.name)).toEqual(['y', 'width', 'height']);
    expect(createFamily('ellipse', { ...room, mirror: false }).parameters.map((p) => p.name)).toEqual([
      'x',
      'y',
      'width',
      'height',
      'turn',
    ]);
  });

  it('starts at the bottom and runs counter-clockwise', () => {
    const nodes = placed(createFamily('ellipse', room), [1.25, 2, 1], 64);
    expect(nodes.y[0]).toBeCloseTo(0.75, 2);
    expect(nodes.y[31]).toBeCloseTo(1.75, 2);
    expect(nodes.x[0]).toBeGreaterThan(0);
    expect(nodes.dx[0]).toBeGreaterThan(0);
  });

  it('lies on the ellipse, however turned', () => {
    const family = createFamily('ellipse', { ...room, mirror: false });
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 5, maxLength: 5 }), (fractions) => {
        const values = valuesAt(family, fractions);
        const [cx, cy, width, height, turn] = values as [number, number, number, number, number];
        const nodes = placed(family, values, 48);
        const c = Math.cos((turn * Math.PI) / 180);
        const s = Math.sin((turn * Math.PI) / 180);
        for (let j = 0; j < 48; j++) {
          const u = c * (nodes.x[j]! - cx) + s * (nodes.y[j]! - cy);
          const v = c * (nodes.y[j]! - cy) - s * (nodes.x[j]! - cx);
          expect((u / (width / 2)) ** 2 + (v / (height / 2)) ** 2).toBeCloseTo(1, 10);
        }
      }),
      { numRuns: 40 },
    );
  });

  it('gives the derivatives of its positions', () => {
    expect(derivativeError(placed(createFamily('ellipse', room), [1.25, 4, 1], 32))).toBeLessThan(1e-12);
    const free = createFamily('ellipse', { ...room, mirror: false });
    expect(derivativeError(placed(free, [0.3, 1.25, 4, 1, 33], 32))).toBeLessThan(1e-12);
  });

  it('is mirror-symmetric to the last bit', () => {
    expect(isMirrored(placed(createFamily('ellipse', room), [1.25, 4, 1], 64))).toBe(true);
  });
});
