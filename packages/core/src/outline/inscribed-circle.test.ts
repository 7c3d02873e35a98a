import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { placed } from '../../../../test/fixtures/outline-checks.js';
import { teeFamilies } from '../host/index.js';
import { createFamily } from './create-family.js';
import type { OutlineRoom } from './family.js';
import { largestInscribedCircle } from './inscribed-circle.js';
import { createCurveNodes, nodeParameter } from './nodes.js';

const room: OutlineRoom = {
  mirror: false,
  xMin: -3,
  xMax: 3,
  yMin: -3,
  yMax: 3,
  edgeRadius: 0.1,
  families: teeFamilies(5),
};
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

  it('touches all sides of a triangle with sides 3, 4 and 5, whichever point comes first: radius 1', () => {
    const x = [0, 4, 8 / 3, 4 / 3, 0, 0, 0, 0];
    const y = [0, 0, 1, 2, 3, 2.25, 1.5, 0.75];
    for (let first = 0; first < 8; first++) {
      const nodes = createCurveNodes(8);
      nodes.x.set([...x.slice(first), ...x.slice(0, first)]);
      nodes.y.set([...y.slice(first), ...y.slice(0, first)]);
      const circle = largestInscribedCircle(nodes);
      for (const figure of [circle.x, circle.y, circle.radius]) expect(Math.abs(figure - 1)).toBeLessThan(1e-3);
    }
  });

  it('fills the width of a long rectangle, where every place along the middle is as good', () => {
    const nodes = createCurveNodes(512);
    // 10 : 1, turned; equal steps along the sides, derivatives do not matter here.
    const [c, s] = [Math.cos(0.3), Math.sin(0.3)];
    for (let j = 0; j < nodes.count; j++) {
      const along = (22 * (j + 0.5)) / nodes.count;
      const [px, py] =
        along < 10 ? [along, 0] : along < 11 ? [10, along - 10] : along < 21 ? [21 - along, 1] : [0, 22 - along];
      nodes.x[j] = c * px - s * py;
      nodes.y[j] = s * px + c * py;
    }
    expect(Math.abs(largestInscribedCircle(nodes).radius / 0.5 - 1)).toBeLessThan(1e-4);
  });

  it('lies in a bent channel whose middle is outside, and no place of a grid is better', () => {
    // A crescent of 298 degrees, 0.5 wide in its middle.
    const crescent = (p: number): [number, number] => {
      const [radius, angle] = [1 + 0.25 * Math.cos(p), 2.6 * Math.sin(p)];
      return [radius * Math.cos(angle), radius * Math.sin(angle)];
    };
    const nodes = createCurveNodes(512);
    for (let j = 0; j < nodes.count; j++)
      [nodes.x[j], nodes.y[j]] = crescent(nodeParameter(j, nodes.count)) as [number, number];
    const circle = largestInscribedCircle(nodes);
    const border = Array.from({ length: 4096 }, (_, i) => crescent((2 * Math.PI * i) / 4096));
    const clear = (x: number, y: number) => Math.min(...border.map(([px, py]) => Math.hypot(px - x, py - y)));
    expect(circle.radius / clear(circle.x, circle.y)).toBeCloseTo(1, 4);
    for (let x = 0.9; x < 1.1; x += 0.01)
      for (let y = -0.1; y < 0.1; y += 0.01) expect(clear(x, y)).toBeLessThan(circle.radius * (1 + 1e-4));
  });

  it('has no radius where there is no inside', () => {
    const nodes = createCurveNodes(64);
    expect(largestInscribedCircle(nodes).radius).toBe(0);
    nodes.x.fill(Number.NaN);
    expect(largestInscribedCircle(nodes).radius).toBe(0);
  });
});
