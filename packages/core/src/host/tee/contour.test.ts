import { describe, expect, it } from 'vitest';
import { InputError } from '../../errors.js';
import { controlContour } from './contour.js';

/** Distance to the filler's border, right half. */
const wall = (R: number, x: number, y: number) => Math.min(y, Math.hypot(x - R, y - R) - R);

describe('controlContour', () => {
  for (const [R, w, e] of [
    [5, 0.12, 0.12],
    [5, 0.15, 0.15],
    [3, 0.3, 0.05],
    [8, 0.1, 0.4],
    [5, 0.5, 0.6],
    [5e-3, 1.2e-4, 1.2e-4],
  ] as const)
    describe(`bend radius ${R}, wall ${w}, edge radius ${e}`, () => {
      const contour = controlContour(R, w, e);
      const { x, y, inset, tipRadius } = contour;
      const last = x.length - 1;

      it('keeps wall plus edge radius as inset plus tip radius', () => {
        expect((inset + tipRadius) / (w + e)).toBeCloseTo(1, 12);
        expect(inset).toBeLessThan(w);
      });

      it('runs from the axis at the bottom to the axis at the top, at the inset from the border along base and side', () => {
        expect(x[0]).toBe(0);
        expect(x[last]).toBe(0);
        expect(y[0]).toBe(inset);
        for (let i = 0; i <= 2 * contour.baseEnd; i++) expect(wall(R, x[i]!, y[i]!) / inset).toBeCloseTo(1, 9);
        for (let i = 2 * contour.sideStart; i <= 2 * contour.sideEnd; i++)
          expect(wall(R, x[i]!, y[i]!) / inset).toBeCloseTo(1, 9);
        for (let i = 0; i <= last; i++) expect(wall(R, x[i]!, y[i]!)).toBeGreaterThan(inset * (1 - 1e-9));
      });

      it('has all nodes at distance zero, mid-side ones too, and its inside positive', () => {
        for (let i = 0; i <= last; i++) expect(Math.abs(contour.distance(x[i]!, y[i]!))).toBeLessThan(1e-12 * R);
        expect(contour.distance(0, R / 4)).toBeGreaterThan(0);
        expect(contour.distance(0, R / 4)).toBeCloseTo(contour.distance(-0, R / 4), 12);
        expect(contour.distance(R / 2, inset / 2)).toBeLessThan(0);
        expect(contour.distance(0, 0.99 * R)).toBeLessThan(0);
        expect(contour.distance(0.95 * R, 1e-4 * R)).toBeLessThan(0);
      });

      it('turns smoothly: no step between neighbouring edges above 30 degrees', () => {
        for (let i = 2; i < last; i += 2) {
          const before = Math.atan2(y[i]! - y[i - 2]!, x[i]! - x[i - 2]!);
          const after = Math.atan2(y[i + 2]! - y[i]!, x[i + 2]! - x[i]!);
          expect(Math.abs(Math.sin(after - before))).toBeLessThan(0.5);
        }
      });
    });

  it('gives about the wanted number of edges, few or many', () => {
    for (const edges of [60, 80, 110, 160, 240])
      expect(Math.abs(controlContour(5, 0.12, 0.12, edges).x.length - 1 - edges)).toBeLessThanOrEqual(0.15 * edges);
  });

  it('refuses what leaves no room in the filler, and NaN', () => {
    expect(() => controlContour(5, 0.9, 0.4)).toThrow(InputError);
    expect(() => controlContour(5, 0.9, 0.4)).toThrow(/radius of 1.25 mm/);
    for (const [w, e] of [
      [0, 0.1],
      [-0.1, 0.3],
      [Number.NaN, 0.1],
      [0.1, Number.NaN],
    ] as const)
      expect(() => controlContour(5, w, e)).toThrow(InputError);
  });
});
