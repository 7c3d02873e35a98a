import { describe, expect, it } from 'vitest';
import { insetNodes } from '../../../../test/fixtures/tee-reference.js';
import { createCurveNodes } from './nodes.js';
import { fitPoints } from './points.js';

/** Arcs that meet with curvatures of 4 and -0.18 per mm. */
const corners = insetNodes(5, 0.6, 0.25, 800);
const points = Array.from(corners.x, (x, j): [number, number] => [x, corners.y[j]!]);

function spacings(count: number, of = points) {
  const nodes = createCurveNodes(count);
  fitPoints(of).place(nodes);
  return Array.from(nodes.dx, (dx, j) => ((2 * Math.PI) / count) * Math.hypot(dx, nodes.dy[j]!));
}

describe('the speed of nodes', () => {
  it('crowds them where curvature jumps', () => {
    const found = spacings(160);
    expect(Math.max(...found) / Math.min(...found)).toBeGreaterThan(8);
  });

  it('crowds them at the same bends however the outline is turned, with a mirror line or without', () => {
    const turned = (angle: number) =>
      points.map(([x, y]): [number, number] => [
        x * Math.cos(angle) - y * Math.sin(angle),
        x * Math.sin(angle) + y * Math.cos(angle),
      ]);
    const upright = spacings(160).sort((a, b) => a - b);
    for (const angle of [0.4, 2, 3.6]) {
      const found = spacings(160, turned(angle)).sort((a, b) => a - b);
      for (const share of [0, 0.25, 0.5, 0.75, 0.999]) {
        const at = Math.floor(share * 160);
        expect(found[at]! / upright[at]!, `${angle}, ${share}`).toBeGreaterThan(0.8);
        expect(found[at]! / upright[at]!, `${angle}, ${share}`).toBeLessThan(1.25);
      }
    }
  });

  it('changes smoothly', () => {
    const found = spacings(160);
    found.forEach((spacing, j) => {
      expect(Math.abs(Math.log(spacing / found[(j + 1) % 160]!))).toBeLessThan(0.5);
    });
  });

  it('goes around once, whatever the number of nodes', () => {
    const perimeters = [96, 160, 512].map((count) => spacings(count).reduce((sum, h) => sum + h, 0));
    expect(perimeters[1]! / perimeters[2]!).toBeCloseTo(1, 6);
    expect(perimeters[0]! / perimeters[2]!).toBeCloseTo(1, 3);
  });
});
