import { describe, expect, it } from 'vitest';
import { createCurveNodes, distanceOutside, distanceToOutline, outlineOf } from './index.js';

describe('the distance of a place from an outline', () => {
  it('is that from a circle, inside, outside and between its nodes', () => {
    const circle = outlineOf(
      { family: 'ellipse', parameters: { y: 3, width: 2, height: 2 } },
      { mirror: true, xMin: -5, xMax: 5, yMin: 0, yMax: 6, edgeRadius: 0 },
    );
    const nodes = createCurveNodes(48);
    circle.place(nodes);
    for (const radius of [0.7, 1, 1.02, 1.5, 4])
      for (let k = 0; k < 10; k++) {
        const [x, y] = [radius * Math.cos(k), 3 + radius * Math.sin(k)];
        expect(Math.abs(distanceToOutline(nodes, x, y) - Math.abs(radius - 1))).toBeLessThan(1e-4);
        expect(Math.abs(distanceOutside(nodes, x, y) - (radius - 1))).toBeLessThan(1e-4);
      }
  });
});
