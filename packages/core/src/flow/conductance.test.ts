import { describe, expect, it } from 'vitest';
import type { CurveNodes } from '../outline/index.js';
import { type Conductance, createConductance } from './conductance.js';
import { ellipse, polygon, trochoid } from './test/curves.js';

const ductOf = (nodes: CurveNodes): Conductance => ({ ...createConductance(nodes.count)(nodes) });

/** Relative error of `found`. */
const error = (found: number, exact: number) => Math.abs(found / exact - 1);

/** Ellipse of semi-axes a, b: `pi a^3 b^3 / (4 (a^2 + b^2))` (Shah & London 1978; White, Viscous Fluid Flow). */
const ellipseFactor = (a: number, b: number) => (Math.PI * a ** 3 * b ** 3) / (4 * (a * a + b * b));

/**
 * `z = a (zeta + m zeta^n)`: on the unit circle `|z|^2 = a^2 (1 + m^2 + 2 m Re zeta^(n-1))`, so the harmonic part of `w` is
 * known inside, and the integral of `w` over the image is a sum of powers. Derived here after the torsion of the
 * same section in Muskhelishvili, Some Basic Problems of the Mathematical Theory of Elasticity (1953), ch. 22.
 */
function trochoidFactor(a: number, m: number, n: number): number {
  const mm = m * m;
  const mean =
    (1 + mm) / 2 -
    1 / 4 -
    mm / (2 * n + 2) +
    n * n * mm * ((1 + mm) / (2 * n) - 1 / (2 * n + 2) - mm / (4 * n)) +
    2 * n * mm * (1 / (2 * n) - 1 / (2 * n + 2));
  return (Math.PI / 2) * a ** 4 * mean;
}

/** Square of side 2: `f Re = 24 / [1 - (192/pi^5) sum tanh(n pi/2)/n^5] / 4`, n odd (Shah & London 1978; White). */
function squarePoiseuille(): number {
  let sum = 0;
  for (let n = 1; n < 60; n += 2) sum += Math.tanh((n * Math.PI) / 2) / n ** 5;
  return 6 / (1 - (192 / Math.PI ** 5) * sum);
}

describe('conductance of smooth outlines', () => {
  it('is Hagen and Poiseuille in a circle', () => {
    const { area, perimeter, hydraulicDiameter, conductance, poiseuilleNumber } = ductOf(
      ellipse(64, 0.25, 0.25, 0, 1.25),
    );
    expect(area).toBeCloseTo(Math.PI / 16, 14);
    expect(perimeter).toBeCloseTo(Math.PI / 2, 14);
    expect(hydraulicDiameter).toBeCloseTo(0.5, 14);
    // Q = pi r^4 dp / (8 mu L)
    expect(error(conductance, (Math.PI * 0.25 ** 4) / 8)).toBeLessThan(1e-13);
    // Shah & London 1978; White, Viscous Fluid Flow: 16
    expect(poiseuilleNumber).toBeCloseTo(16, 12);
  });

  it('meets the closed form of an ellipse, mirror-symmetric or not, to 1e-12 at 2:1 and 1e-6 at 6:1 with 64 nodes', () => {
    for (const [a, b, bound] of [
      [2, 1, 1e-12],
      [1, 4, 1e-12],
      [6, 1, 1e-6],
    ] as const) {
      expect(error(ductOf(ellipse(64, a, b, 0, 3)).conductance, ellipseFactor(a, b))).toBeLessThan(bound);
      expect(error(ductOf(ellipse(64, a, b, 5, 3, 0.4)).conductance, ellipseFactor(a, b))).toBeLessThan(bound);
    }
  });

  it('has the Poiseuille numbers that Shah & London (1978) tabulate for elliptical ducts', () => {
    // Axes ratio, f Re: from memory, and equal to 2 (1 + r^2) (pi / E(m))^2 to the digits given.
    for (const [ratio, expected] of [
      [0.5, 16.823],
      [0.25, 18.24],
    ] as const)
      expect(ductOf(ellipse(96, 1, ratio)).poiseuilleNumber).toBeCloseTo(expected, 3);
  });

  it('meets the closed form of conformal images of the circle to 1e-10 with 64 nodes', () => {
    for (const [m, n] of [
      [0.12, 2],
      [-0.1, 3],
      [0.08, 4],
    ] as const)
      for (const turn of [0, Math.PI / 2, 0.7])
        expect(error(ductOf(trochoid(64, 1.3, m, n, turn)).conductance, trochoidFactor(1.3, m, n))).toBeLessThan(1e-10);
  });

  it('converges exponentially: the error falls by (a-b)/(a+b) per added node', () => {
    const at = (count: number) => error(ductOf(ellipse(count, 4, 1)).conductance, ellipseFactor(4, 1));
    const perNode = (at(40) / at(24)) ** (1 / 16);
    expect(perNode).toBeLessThan(0.62);
    expect(perNode).toBeGreaterThan(0.55);
  });

  it('gives the same for one outline whether half or all of its nodes are unknown', () => {
    // A shift in x hides the mirror line from the switch.
    for (const turn of [Math.PI / 2, -Math.PI / 2]) {
      const nodes = trochoid(48, 1, 0.2, 2, turn);
      const shifted = trochoid(48, 1, 0.2, 2, turn);
      for (let j = 0; j < 48; j++) shifted.x[j]! += 1e-3;
      expect(error(ductOf(nodes).conductance, ductOf(shifted).conductance)).toBeLessThan(1e-13);
    }
  });

  it('does not depend on whether the number of unknowns is a multiple of four, as the elimination works in fours', () => {
    for (const count of [44, 46, 48, 50])
      for (const turn of [0, 0.3])
        expect(error(ductOf(ellipse(count, 2, 1, 0, 0, turn)).conductance, ellipseFactor(2, 1))).toBeLessThan(1e-13);
  });

  it('scales with the fourth power of length from 1e-3 to 1e3 mm and does not depend on the place', () => {
    const { conductance } = ductOf(ellipse(32, 2, 1, 0, 0, 0.3));
    for (const scale of [1e-3, 1e3])
      expect(
        error(ductOf(ellipse(32, 2 * scale, scale, 0, 0, 0.3)).conductance, conductance * scale ** 4),
      ).toBeLessThan(1e-12);
    expect(error(ductOf(ellipse(32, 2, 1, 900, -700, 0.3)).conductance, conductance)).toBeLessThan(1e-9);
  });

  it('gives NaN for an outline with NaN in it', () => {
    const nodes = ellipse(16, 1, 1);
    nodes.x[3] = Number.NaN;
    expect(ductOf(nodes).conductance).toBeNaN();
    expect(ductOf(nodes).poiseuilleNumber).toBeNaN();
  });

  it('refuses another node count than its own', () => {
    expect(() => createConductance(7)).toThrow('expected an even number');
    expect(() => createConductance(Number.NaN)).toThrow('received NaN');
    expect(() => createConductance(32)(ellipse(16, 1, 1))).toThrow('expected 32 nodes, received 16');
  });
});

describe('conductance of outlines with corners, nodes graded towards them', () => {
  const height = Math.sqrt(3) / 2;
  const triangle = [
    [-0.5, 0],
    [0.5, 0],
    [0, height],
  ] as const;
  const square = [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ] as const;

  it('meets the equilateral triangle, f Re = 40/3 (Shah & London 1978), to 0.1 % with 32 nodes a side', () => {
    expect(error(ductOf(polygon(triangle, 32, 4)).poiseuilleNumber, 40 / 3)).toBeLessThan(1e-3);
  });

  it('meets the square, f Re = 14.227 (Shah & London 1978), to 0.1 % with 32 nodes a side', () => {
    expect(squarePoiseuille()).toBeCloseTo(14.227, 3);
    expect(error(ductOf(polygon(square, 32, 4)).poiseuilleNumber, squarePoiseuille())).toBeLessThan(1e-3);
  });

  it('meets the hexagon, f Re = 15.054 (Shah & London 1978, regular polygons; from memory), to 0.1 %', () => {
    const hexagon = Array.from(
      { length: 6 },
      (_, k) => [Math.cos((k * Math.PI) / 3), Math.sin((k * Math.PI) / 3)] as const,
    );
    expect(error(ductOf(polygon(hexagon, 32, 4)).poiseuilleNumber, 15.054)).toBeLessThan(1e-3);
  });

  it('meets the approximation of rectangles, f Re = 24 (1 - 1.3553 r + ...) (Shah & London 1978, eq. 341), to 0.1 %', () => {
    // Their polynomial is stated to err by 0.05 %.
    for (const r of [0.5, 0.25]) {
      const rectangle = [
        [-1, -r],
        [1, -r],
        [1, r],
        [-1, r],
      ] as const;
      const published = 24 * (1 - 1.3553 * r + 1.9467 * r ** 2 - 1.7012 * r ** 3 + 0.9564 * r ** 4 - 0.2537 * r ** 5);
      expect(error(ductOf(polygon(rectangle, 48, 4)).poiseuilleNumber, published)).toBeLessThan(1e-3);
    }
  });

  it('converges with third order or better under Kress grading of order 4', () => {
    const at = (perSide: number) => error(ductOf(polygon(triangle, perSide, 4)).poiseuilleNumber, 40 / 3);
    expect(Math.log2(at(16) / at(32))).toBeGreaterThan(3);
    expect(Math.log2(at(32) / at(64))).toBeGreaterThan(3);
  });
});
