import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createFamily } from './create-family.js';
import type { OutlineRoom } from './family.js';
import { largestInscribedCircle } from './inscribed-circle.js';
import { placed } from './test/outline-checks.js';

const room: OutlineRoom = { mirror: false, xMin: -3, xMax: 3, yMin: -3, yMax: 3, edgeRadius: 0.1, bendRadius: 5 };
const ellipse = createFamily('ellipse', room);

describe('largestInscribedCircle', () => {
  it('has half the smaller axis of an ellipse, about its middle, at any scale', () => {
    fc.assert(
      fc.property(fc.constantFrom(1e-3, 1, 1e3), fc.double({ min: -90, max: 90, noNaN: true }), (scale, turn) => {
        const circle = largestInscribedCircle(
          placed(ellipse, [0.3 * scale, -0.2 * scale, 2 * scale, scale, turn], 512),
        );
        expect(circle.radius / scale).toBeCloseTo(0.5, 4);
        expect(Math.hypot(circle.x / scale - 0.3, circle.y / scale + 0.2)).toBeLessThan(0.02);
      }),
      { numRuns: 20 },
    );
  });

  it('is the circle of bendRadius / 4 in the filler, less what walls take', () => {
    const inset = createFamily('inset', { ...room, mirror: true, yMin: 0 });
    // No walls: it touches base and bends, whatever the tips.
    expect(largestInscribedCircle(placed(inset, [0, 0, 0.3, 0.3], 512)).radius).toBeCloseTo(1.25, 3);
    // Derived here: centre (0, wall + r) at bendRadius + wall + r from the bends' centres.
    const wall = 0.3;
    const radius = (25 + (5 - wall) ** 2 - (5 + wall) ** 2) / 20;
    expect(largestInscribedCircle(placed(inset, [wall, wall, 0.3, 0.3], 512)).radius).toBeCloseTo(radius, 3);
  });
});
