import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../../errors.js';
import { contourBorder, teeFillerBorder } from './border.js';

/** Points of the filler's border or of a contour, made independently: base, arcs and tip circles sampled densely. */
function borderPoints(bendRadius: number, offset: number, tip: number): [number, number][] {
  const points: [number, number][] = [];
  const arc = bendRadius + offset;
  // Contact angles on the right arc, from straight down towards the left, of the side and the top tip.
  const side = Math.acos((bendRadius - offset - tip) / (arc + tip));
  const top = Math.asin(bendRadius / (arc + tip));
  const sideX = bendRadius - (arc + tip) * Math.sin(side);
  const topY = bendRadius - (arc + tip) * Math.cos(top);
  const steps = 4000;
  for (let i = 0; i <= steps; i++) {
    const f = i / steps;
    const angle = side + f * (top - side);
    points.push([f * sideX, offset]);
    points.push([bendRadius - arc * Math.sin(angle), bendRadius - arc * Math.cos(angle)]);
    const sideTurn = -Math.PI / 2 + f * (Math.PI - side);
    points.push([sideX + tip * Math.cos(sideTurn), offset + tip + tip * Math.sin(sideTurn)]);
    const topTurn = Math.PI / 2 - top + f * top;
    points.push([tip * Math.cos(topTurn), topY + tip * Math.sin(topTurn)]);
  }
  return points.concat(points.map(([x, y]) => [-x, y]));
}

type Numbers = Float64Array;

describe('borders of a tee', () => {
  it('has the filler area 2 R^2 (1 - pi/4)', () => {
    // By counting cells inside the border: an independent estimate of the area.
    const border = teeFillerBorder(5);
    const cell = 0.02;
    let inside = 0;
    for (let x = -5 + cell / 2; x < 5; x += cell)
      for (let y = cell / 2; y < 5; y += cell) if (border.distance(x, y) > 0) inside++;
    expect(inside * cell * cell).toBeCloseTo(2 * 5 ** 2 * (1 - Math.PI / 4), 1);
  });

  it('holds a largest circle of radius R/4, touching base and both bends', () => {
    const border = teeFillerBorder(5);
    expect(border.distance(0, 1.25)).toBeCloseTo(1.25, 12);
    fc.assert(
      fc.property(fc.double({ min: -5, max: 5, noNaN: true }), fc.double({ min: 0, max: 5, noNaN: true }), (x, y) => {
        expect(border.distance(x, y)).toBeLessThanOrEqual(1.25 + 1e-12);
      }),
    );
  });

  it.each([
    [5, 0, 0],
    [5, 0.1, 0.14],
    [5, 0.3, 0.5],
    [8, 0.12, 0.4],
  ])('gives the distance to the border inside: R=%d, offset %d, tip radius %d', (bendRadius, offset, tip) => {
    const border = contourBorder(bendRadius, offset, tip);
    const points = borderPoints(bendRadius, offset, tip);
    for (const [x, y] of points.filter((_, i) => i % 97 === 0))
      expect(Math.abs(border.distance(x, y))).toBeLessThan(1e-12);
    const [xs, ys] = [0, 1].map((axis) => Float64Array.from(points, (point) => point[axis]!)) as [Numbers, Numbers];
    const coordinate = fc.double({ min: -1, max: 1, noNaN: true });
    let insideCount = 0;
    fc.assert(
      fc.property(coordinate, coordinate, (u, v) => {
        const [x, y] = [u * bendRadius, ((v + 1) / 2) * bendRadius];
        const distance = border.distance(x, y);
        let least = Number.POSITIVE_INFINITY;
        for (let i = 0; i < xs.length; i++) {
          const square = (xs[i]! - x) ** 2 + (ys[i]! - y) ** 2;
          if (square < least) least = square;
        }
        const nearest = Math.sqrt(least);
        if (distance > 0) {
          insideCount++;
          expect(distance).toBeCloseTo(nearest, 2);
        } else expect(-distance).toBeGreaterThan(nearest - 1e-2);
      }),
      { numRuns: 300, seed: 1 },
    );
    expect(insideCount).toBeGreaterThan(10);
  });

  it('is negative everywhere beyond the cusps', () => {
    for (const border of [teeFillerBorder(5), contourBorder(5, 0.1, 0.14)])
      for (const [x, y] of [
        [5.5, 0.01],
        [20, 0.5],
        [15, 5],
        [15, 100],
        [0, 5.5],
        [0.3, 9],
        [7, 11],
        [11, 7],
        [-15, 5],
        [0, -0.1],
        [5, 5],
      ] as const)
        expect(border.distance(x, y), `${x}, ${y}`).toBeLessThan(0);
    // The cusp itself is what lies nearest.
    expect(teeFillerBorder(5).distance(6, 0)).toBeCloseTo(-1, 12);
    expect(teeFillerBorder(5).distance(0, 7)).toBeCloseTo(-2, 12);
  });

  it('scales', () => {
    const one = contourBorder(5, 0.1, 0.14);
    const large = contourBorder(5000, 100, 140);
    for (const [x, y] of [
      [0, 1],
      [2.6, 0.3],
      [0.05, 3.4],
      [9, 9],
    ] as const)
      expect(large.distance(1000 * x, 1000 * y) / 1000).toBeCloseTo(one.distance(x, y), 10);
  });

  it.each([
    [5, 1.2, 0.1],
    [5, 0.1, 1.2],
    [5, -0.1, 0.1],
    [5, Number.NaN, 0.1],
    [0, 0.1, 0.1],
  ])('refuses what leaves no filler: R=%d, offset %d, tip radius %d', (bendRadius, offset, tip) => {
    expect(() => contourBorder(bendRadius, offset, tip)).toThrow(InputError);
  });
});
