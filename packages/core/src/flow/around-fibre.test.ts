import { describe, expect, it } from 'vitest';
import { conductanceAroundFibre } from './around-fibre.js';
import { createConductance } from './conductance.js';
import { ellipse, trochoid } from './test/curves.js';

/** Concentric ring of radii a > b: `pi/8 [a^4 - b^4 - (a^2 - b^2)^2 / ln(a/b)]` (White, Viscous Fluid Flow; Shah & London 1978). */
const ring = (a: number, b: number) => (Math.PI / 8) * (a ** 4 - b ** 4 - (a * a - b * b) ** 2 / Math.log(a / b));

/** Circles a > b with centres c apart: Piercy, Hooper & Winny, Phil. Mag. 15 (1933) 647, as in White, Viscous Fluid Flow. */
function eccentric(a: number, b: number, c: number): number {
  const f = (a * a - b * b + c * c) / (2 * c);
  const m = Math.sqrt(f * f - a * a);
  const alpha = Math.log((f + m) / (f - m)) / 2;
  const beta = Math.log((f - c + m) / (f - c - m)) / 2;
  let sum = 0;
  for (let n = 1; n < 200; n++) sum += (n * Math.exp(-n * (beta + alpha))) / Math.sinh(n * (beta - alpha));
  return (Math.PI / 8) * (a ** 4 - b ** 4 - (4 * c * c * m * m) / (beta - alpha) - 8 * c * c * m * m * sum);
}

describe('flow around a fibre', () => {
  it('meets the concentric ring to 1e-12, also far from the origin', () => {
    for (const b of [0.05, 0.3, 0.6]) {
      const found = conductanceAroundFibre(ellipse(64, 1, 1, 7, -2), { x: 7, y: -2, radius: b });
      expect(Math.abs(found.conductance / ring(1, b) - 1)).toBeLessThan(1e-12);
      expect(found.area).toBeCloseTo(Math.PI * (1 - b * b), 12);
      expect(found.perimeter).toBeCloseTo(2 * Math.PI * (1 + b), 12);
    }
  });

  it('has the Poiseuille number of the ring with radii 1 : 2, f Re = 23.81 (Shah & London 1978; from memory)', () => {
    expect(conductanceAroundFibre(ellipse(64, 1, 1), { x: 0, y: 0, radius: 0.5 }).poiseuilleNumber).toBeCloseTo(
      23.81,
      2,
    );
  });

  it('meets the ring between circles off centre, to 1e-3 with a gap of two spacings', () => {
    for (const [b, c, bound] of [
      [0.3, 0.2, 1e-12],
      [0.2, 0.5, 1e-8],
      [0.4, 0.4, 1e-3],
    ] as const) {
      const found = conductanceAroundFibre(ellipse(64, 1, 1), { x: c * Math.cos(1), y: c * Math.sin(1), radius: b });
      expect(Math.abs(found.conductance / eccentric(1, b, c) - 1)).toBeLessThan(bound);
    }
  });

  it('flows more the nearer the fibre lies to the wall, and never more than without', () => {
    const outline = trochoid(128, 1, 0.15, 2, 0.3);
    const free = createConductance(128)(outline).conductance;
    const at = (x: number) => conductanceAroundFibre(outline, { x, y: 0, radius: 0.2 }).conductance;
    expect(at(0.5)).toBeGreaterThan(at(0));
    expect(at(0.5)).toBeLessThan(free);
  });

  it('falls to the free flow as slowly as a thin fibre does: deficit proportional to 1 / ln(size / radius)', () => {
    const free = Math.PI / 8;
    const deficit = (b: number) =>
      free - conductanceAroundFibre(ellipse(64, 1, 1), { x: 0, y: 0, radius: b }).conductance;
    expect(deficit(1e-6) / deficit(1e-3)).toBeCloseTo(0.5, 4);
  });

  it('refuses a fibre outside the outline, across it, or without size', () => {
    const outline = ellipse(64, 1, 1);
    for (const fibre of [
      { x: 3, y: 0, radius: 0.1 },
      { x: 0.9, y: 0, radius: 0.2 },
      { x: 0, y: 0, radius: 0 },
      { x: 0, y: Number.NaN, radius: 0.1 },
    ])
      expect(() => conductanceAroundFibre(outline, fibre)).toThrow('expected a circle inside the outline');
  });
});
