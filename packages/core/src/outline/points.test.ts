import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isMirrored, placed } from '../../../../test/fixtures/outline-checks.js';
import { InputError } from '../errors.js';
import { createFamily } from './create-family.js';
import type { Border, OutlineRoom } from './family.js';
import { createOutlineMeasure, measureOutline } from './measure.js';
import { createCurveNodes } from './nodes.js';
import { fitPoints } from './points.js';

const nowhere: Border = { distance: () => Number.POSITIVE_INFINITY };
const room: OutlineRoom = { mirror: true, xMin: -3, xMax: 3, yMin: -3, yMax: 3, edgeRadius: 0.1 };

/** Points of an ellipse with semi-axes 2 and 1 about (cx, cy), turned, counter-clockwise from angle `from`. */
function ellipse(count: number, cx = 0, cy = 0, turn = 0, from = 0.3): [number, number][] {
  return Array.from({ length: count }, (_, i) => {
    const s = from + (i * 2 * Math.PI) / count;
    const [u, v] = [2 * Math.cos(s), Math.sin(s)];
    return [cx + Math.cos(turn) * u - Math.sin(turn) * v, cy + Math.sin(turn) * u + Math.cos(turn) * v];
  });
}

/** Twenty points a side, its corner first. */
function polygon(...corners: [number, number][]): [number, number][] {
  return corners.flatMap(([x, y], i) => {
    const [toX, toY] = corners[(i + 1) % corners.length]!;
    return Array.from({ length: 20 }, (_, k): [number, number] => [x + ((toX - x) * k) / 20, y + ((toY - y) * k) / 20]);
  });
}

const rounded = ([x, y]: [number, number]): [number, number] => [Number(x.toFixed(3)), Number(y.toFixed(3))];

function measured(points: [number, number][], count = 256) {
  const nodes = createCurveNodes(count);
  fitPoints(points).place(nodes);
  const m = createOutlineMeasure();
  measureOutline(nodes, nowhere, m);
  return m;
}

describe('fitPoints', () => {
  it('converges to the outline with the fourth order in area and in perimeter', () => {
    const areaError = (count: number) => Math.abs(measured(ellipse(count), 2048).area / (2 * Math.PI) - 1);
    const perimeterError = (count: number) => Math.abs(measured(ellipse(count), 2048).perimeter / 9.688448220548 - 1);
    expect(areaError(64)).toBeLessThan(1e-5);
    expect(Math.log2(areaError(64) / areaError(128))).toBeGreaterThan(3.7);
    expect(Math.log2(perimeterError(64) / perimeterError(128))).toBeGreaterThan(3.7);
  });

  it('keeps area, least radius and place of any ellipse, wherever the points start and whichever way they run', () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        number(-2, 2),
        number(-2, 2),
        number(0, 3),
        number(0, 6),
        fc.boolean(),
        (cx, cy, turn, from, reversed) => {
          const points = ellipse(96, cx, cy, turn, from);
          if (reversed) points.reverse();
          const m = measured(points);
          expect(m.area / (2 * Math.PI)).toBeCloseTo(1, 5);
          expect(m.edgeRadius).toBeCloseTo(0.5, 2);
          expect(m.centroidX).toBeCloseTo(cx, 5);
          expect(m.centroidY).toBeCloseTo(cy, 5);
          expect(m.simple).toBe(true);
        },
      ),
      { numRuns: 40 },
    );
  });

  it.each([1e-3, 1, 1e3])('runs counter-clockwise whichever way its points do, at %f times the size', (size) => {
    const points = ellipse(96).map(([x, y]): [number, number] => [size * x, size * y]);
    for (const given of [points, points.toReversed()]) {
      const m = measured(given);
      expect(m.simple).toBe(true);
      expect(m.area / (2 * Math.PI * size * size)).toBeCloseTo(1, 5);
    }
  });

  it('gives first and second derivatives that fit together', () => {
    const nodes = createCurveNodes(4096);
    fitPoints(ellipse(64)).place(nodes);
    const h = (2 * Math.PI) / 4096;
    for (let j = 1; j < 4095; j++) {
      expect((nodes.x[j + 1]! - nodes.x[j - 1]!) / (2 * h)).toBeCloseTo(nodes.dx[j]!, 4);
      expect((nodes.dy[j + 1]! - nodes.dy[j - 1]!) / (2 * h)).toBeCloseTo(nodes.ddy[j]!, 2);
    }
  });

  it('tells a mirror-symmetric outline and keeps it so to the last bit', () => {
    const family = createFamily('teardrop', room);
    const source = placed(family, [0.4, 2, 2.4, 0.8], 96);
    const points = Array.from(source.x, (x, j): [number, number] => [x, source.y[j]!]);
    for (const shift of [0, 17, 48]) {
      const curve = fitPoints([...points.slice(shift), ...points.slice(0, shift)]);
      expect(curve.mirror).toBe(true);
      const nodes = createCurveNodes(128);
      curve.place(nodes);
      expect(isMirrored(nodes)).toBe(true);
      expect(nodes.y[0]).toBeLessThan(nodes.y[63]!);
      expect(nodes.dx[0]).toBeGreaterThan(0);
    }
    // A point on the mirror line, at the top and at the bottom
    expect(fitPoints(ellipse(64, 0, 1, 0, 0)).mirror).toBe(true);
    expect(fitPoints(ellipse(64, 0, 1, 0, Math.PI / 2)).mirror).toBe(true);
    expect(fitPoints(ellipse(64, 1e-6, 1, 0, 0)).mirror).toBe(false);
    expect(fitPoints(ellipse(64, 0, 1, 1e-6, 0)).mirror).toBe(false);
    expect(fitPoints(ellipse(64, 0, 1, 0, 0.3)).mirror).toBe(false);
  });

  it('tells mirror symmetry of rounded points, and makes it exact', () => {
    const rounded = (points: [number, number][], decimals: number) =>
      points.map(([x, y]): [number, number] => [Number(x.toFixed(decimals)), Number(y.toFixed(decimals))]);
    for (const decimals of [3, 4, 5]) {
      const curve = fitPoints(rounded(ellipse(800, 0, 1.25), decimals));
      expect(curve.mirror).toBe(true);
      const nodes = createCurveNodes(128);
      curve.place(nodes);
      expect(isMirrored(nodes)).toBe(true);
      expect(fitPoints(rounded(ellipse(800, 5 * 10 ** -decimals, 1.25), decimals)).mirror).toBe(false);
    }
  });

  it('takes points that rounding put onto each other', () => {
    const circle = Array.from({ length: 800 }, (_, i): [number, number] => {
      const angle = (i * Math.PI) / 400;
      return [Number((0.1 * Math.cos(angle)).toFixed(3)), Number((0.1 * Math.sin(angle)).toFixed(3))];
    });
    const m = measured(circle);
    expect(m.area / (Math.PI * 0.01)).toBeCloseTo(1, 2);
    expect(m.edgeRadius).toBeGreaterThan(0.09);
  });

  it('is the same at any scale', () => {
    const one = measured(ellipse(64));
    for (const scale of [1e-3, 1e3]) {
      const m = measured(ellipse(64).map(([x, y]): [number, number] => [scale * x, scale * y]));
      expect(m.area / scale ** 2).toBeCloseTo(one.area, 10);
      expect(m.edgeRadius / scale).toBeCloseTo(one.edgeRadius, 8);
    }
  });

  it('leaves out a last point equal to the first', () => {
    const points = ellipse(64);
    expect(measured([...points, points[0]!]).area).toBe(measured(points).area);
  });

  it.each([
    ['a square', polygon([1, 1], [-1, 1], [-1, -1], [1, -1]), 90],
    ['a square of few decimals', polygon([1, 1], [-1, 1], [-1, -1], [1, -1]).map(rounded), 90],
    [
      'a hexagon',
      polygon(
        ...Array.from({ length: 6 }, (_, i): [number, number] => [
          Math.cos((i * Math.PI) / 3),
          Math.sin((i * Math.PI) / 3),
        ]),
      ),
      60,
    ],
    ['a chamfered square', polygon([1, 1], [-1, 1], [-1, -1], [0.99, -1], [1, -0.99]), 90],
    [
      'a drop',
      Array.from({ length: 64 }, (_, i): [number, number] => [
        Math.sin((i * Math.PI) / 32) * Math.sin((i * Math.PI) / 64),
        Math.cos((i * Math.PI) / 32),
      ]),
      90,
    ],
  ])('refuses corners, where stress has no finite value: %s', (_, points, degrees) => {
    expect(() => fitPoints(points)).toThrow(InputError);
    expect(() => fitPoints(points)).toThrow(new RegExp(`a corner of ${degrees} degrees at x .*; round it`));
  });

  it.each([1, 2, 3, 5])('takes the tips of a slender ellipse and a rounding of %i points a quarter', (more) => {
    const tips = ellipse(32).map(([x, y]): [number, number] => [4 * x, y]);
    expect(() => fitPoints(tips)).not.toThrow();
    // Straights of points 0.1 apart, and quarter circles.
    const quarter = 2 + more;
    const side = (k: number) =>
      [
        ...Array.from({ length: 11 }, (_, i): [number, number] => [1, -0.5 + i / 10]),
        ...Array.from({ length: quarter }, (_, i): [number, number] => {
          const angle = ((i + 1) / (quarter + 1)) * (Math.PI / 2);
          return [0.5 + 0.5 * Math.cos(angle), 0.5 + 0.5 * Math.sin(angle)];
        }),
      ].map(
        ([x, y]): [number, number] =>
          [
            [x!, y!],
            [-y!, x!],
            [-x!, -y!],
            [y!, -x!],
          ][k] as [number, number],
      );
    expect(() => fitPoints([0, 1, 2, 3].flatMap(side))).not.toThrow();
  });

  it.each([
    ['too few points', ellipse(31), /points: expected at least 32 points, received 31/],
    ['too few once the closing point is left out', [...ellipse(31), ellipse(31)[0]!], /received 31/],
    ['none', [], /received 0/],
    [
      'too few once those in one place are left out',
      [...ellipse(30), ...Array(9).fill(ellipse(30)[29]!)].map(([x, y], i): [number, number] => [x! + 1e-13 * i, y!]),
      /points/,
    ],
    ['too many points', ellipse(10_001), /at most 10000 points, received 10001/],
    ['NaN', ellipse(40).with(3, [Number.NaN, 0]), /points\[3\]: expected two finite numbers/],
    ['a triple', ellipse(40).with(3, [1, 2, 3] as unknown as [number, number]), /points\[3\]/],
    ['a double', ellipse(40).with(4, ellipse(40)[3]!), /points\[4\]: expected a point apart/],
    ['all alike', Array.from({ length: 40 }, (): [number, number] => [1, 1]), /apart/],
    [
      'a figure of eight',
      Array.from({ length: 64 }, (_, i): [number, number] => [
        Math.cos((i * Math.PI) / 32),
        Math.sin((i * Math.PI) / 16),
      ]),
      /cross itself/,
    ],
  ])('refuses %s', (_, points, message) => {
    expect(() => fitPoints(points)).toThrow(InputError);
    expect(() => fitPoints(points)).toThrow(message);
  });
});
