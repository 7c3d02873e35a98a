import { describe, expect, it } from 'vitest';
import { largestOf, mappedHoop, mappedNodes } from '../../../../test/fixtures/mapped-hole.js';
import { largestDifference } from '../../../../test/fixtures/numbers.js';
import { ellipseNodes } from '../../../../test/fixtures/tee-reference.js';
import { nodeParameter } from '../outline/index.js';
import { hoopRule } from './hoop.js';
import { type FarField, farFieldLoad, solveEdge } from './test/far-field.js';

const circle = (radius: number, count: number) => ellipseNodes(radius, radius, [0, 0], 0, count);
const largest = (values: Float64Array) => largestDifference(values, new Float64Array(values.length));

describe('hoop stress of holes in an infinite sheet', () => {
  // Kirsch, VDI-Zeitschrift 42 (1898) 797-807: 1 - 2 cos 2s along the edge, s from the direction of the tension.
  it.each([8, 10, 32, 64])('is 3 and -1 on a circle under tension, with %i nodes', (count) => {
    const { hoop, extremes } = solveEdge(circle(1, count), farFieldLoad({ sx: 1, sy: 0, txy: 0 }));
    const exact = hoop.map((_, j) => 1 - 2 * Math.cos(2 * nodeParameter(j, count)));
    expect(largestDifference(hoop, exact)).toBeLessThan(1e-12);
    expect(Math.abs(extremes.peak - 3)).toBeLessThan(1e-10);
    expect(Math.abs(extremes.least + 1)).toBeLessThan(1e-10);
    expect(Math.abs(extremes.peakX)).toBeLessThan(1e-6);
    expect(Math.abs(Math.abs(extremes.peakY) - 1)).toBeLessThan(1e-6);
  });

  it('is 4 and -4 on a circle under shear', () => {
    const { extremes } = solveEdge(circle(1, 64), farFieldLoad({ sx: 0, sy: 0, txy: 1 }));
    expect(extremes.peak).toBeCloseTo(4, 10);
    expect(extremes.least).toBeCloseTo(-4, 10);
  });

  // Inglis, Trans. Inst. Naval Archit. 55 (1913) 219-230: tension 1 at `angle` to the long axis of half axes a, b.
  it.each([0, 0.3, Math.PI / 4, 1.1, Math.PI / 2])(
    'is that of a 2:1 ellipse all around its edge at 32 nodes, tension at %f rad to the long axis',
    (angle) => {
      const [a, b, count] = [1, 0.5, 32];
      const xi = Math.atanh(b / a);
      const exact = (eta: number) =>
        (Math.sinh(2 * xi) + Math.cos(2 * angle) - Math.exp(2 * xi) * Math.cos(2 * (angle - eta))) /
        (Math.cosh(2 * xi) - Math.cos(2 * eta));
      const load = farFieldLoad({
        sx: Math.cos(angle) ** 2,
        sy: Math.sin(angle) ** 2,
        txy: Math.sin(angle) * Math.cos(angle),
      });
      const { hoop, extremes } = solveEdge(ellipseNodes(a, b, [0, 0], 0, count), load);
      const peak = largestOf(exact);
      expect(
        largestDifference(
          hoop,
          hoop.map((_, j) => exact(nodeParameter(j, count))),
        ),
      ).toBeLessThan(1e-5 * peak);
      expect(Math.abs(extremes.peak / peak - 1)).toBeLessThan(1e-5);
    },
  );

  // Published peaks by the same map (mechanics of conformal maps, Muskhelishvili): rounded to what a scan of 0.1 degrees gives.
  const fields: Record<string, FarField> = {
    tension: { sx: 1, sy: 0, txy: 0 },
    even: { sx: 1, sy: 1, txy: 0 },
    mixed: { sx: 0.3, sy: 0.9, txy: 0.5 },
  };
  it.each([
    [-1 / 6, 3, 'tension', 3.857102, 64, 1e-3],
    [-1 / 6, 3, 'even', 6, 64, 1e-3],
    [-1 / 6, 3, 'mixed', 8.534681, 64, 1e-3],
    [-1 / 9, 3, 'tension', 2.852019, 64, 1e-3],
    [-1 / 9, 3, 'even', 4, 64, 1e-3],
    [-1 / 9, 3, 'mixed', 5.910125, 64, 1e-3],
    [1 / 3, 2, 'tension', 8.873642, 64, 1e-3],
    [1 / 3, 2, 'even', 10, 64, 1e-3],
    [0.4, 2, 'tension', 15.313703, 96, 5e-3],
    [0.4, 2, 'even', 18, 96, 5e-3],
  ] as const)('is that of zeta + %f zeta^-%i under %s, peak %f', (eps, n, name, peak, count, tolerance) => {
    const hole = { eps, n };
    const exact = mappedHoop(hole, fields[name]!);
    expect(Math.abs(largestOf(exact) / peak - 1)).toBeLessThan(2e-5);
    const { hoop, extremes } = solveEdge(mappedNodes(hole, count), farFieldLoad(fields[name]!));
    expect(Math.abs(extremes.peak / largestOf(exact) - 1)).toBeLessThan(tolerance);
    const around = hoop.map((_, j) => exact(nodeParameter(j, count)));
    expect(largestDifference(hoop, around)).toBeLessThan(tolerance * largest(around));
  });

  // Ling, J. Appl. Phys. 19 (1948) 77-82: two holes; values from memory, recomputed by a Laurent solution.
  it.each([
    [1.5, 2.8875, 3.26409, 2.62314],
    [2, 2.411, 3.066, 2.703],
    [3, 2.155, 3.02, 2.825],
    [5, 2.049, 3.004, 2.927],
    [8, 2.018, 3.001, 2.97],
  ])('is that of a pair of circles %f diameters apart', (distance, allRound, across, along) => {
    const right = ellipseNodes(1, 1, [distance, 0], 0, 64);
    const peak = (far: FarField) => solveEdge(right, farFieldLoad(far), { fold: 'pair' });
    expect(peak({ sx: 1, sy: 1, txy: 0 }).extremes.peak).toBeCloseTo(allRound, 3);
    expect(peak({ sx: 0, sy: 1, txy: 0 }).extremes.peak).toBeCloseTo(across, 3);
    // At the top, which is half way between two nodes.
    const { slope } = peak({ sx: 1, sy: 0, txy: 0 });
    const halfway = new Float64Array(64);
    hoopRule(64).take(right, slope, 1, 0);
    hoopRule(64).halfway(halfway);
    expect(halfway[31]).toBeCloseTo(along, 3);
  });

  it('is that of one circle where the other is far away, under shear too', () => {
    const right = ellipseNodes(1, 1, [500, 0], 0, 32);
    for (const [fold, far] of [
      ['pair', { sx: 1, sy: 0, txy: 0 }],
      ['odd-pair', { sx: 0, sy: 0, txy: 1 }],
    ] as const) {
      const alone = solveEdge(right, farFieldLoad(far)).hoop;
      expect(largestDifference(solveEdge(right, farFieldLoad(far), { fold }).hoop, alone)).toBeLessThan(1e-5);
    }
  });

  // Cherepanov, J. Appl. Math. Mech. 38 (1974) 915-931: the ellipse with axes in the ratio of the tensions.
  it.each([1, 1.5, 2, 3])('is uniform on an ellipse with axes %f:1 under tensions in that ratio', (ratio) => {
    const { hoop, extremes } = solveEdge(
      ellipseNodes(ratio, 1, [0, 0], 0, 96),
      farFieldLoad({ sx: ratio, sy: 1, txy: 0 }),
    );
    expect(largestDifference(hoop, new Float64Array(96).fill(ratio + 1))).toBeLessThan(1e-10);
    expect(extremes.peak).toBeCloseTo(ratio + 1, 10);
    expect(extremes.least).toBeCloseTo(ratio + 1, 10);
  });
});
