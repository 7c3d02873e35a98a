import { describe, expect, it } from 'vitest';
import { createSplinePoint, pointAt } from './periodic-spline.js';
import { smoothSpline } from './smooth-spline.js';

/** Points of an ellipse with semi-axes 2 and 1 at the angles given, rounded. */
function ellipse(angles: readonly number[], decimals: number) {
  const round = (v: number) => Number(v.toFixed(decimals));
  return {
    x: Float64Array.from(angles, (a) => round(2 * Math.cos(a))),
    y: Float64Array.from(angles, (a) => round(Math.sin(a))),
  };
}

const even = (count: number) => Array.from({ length: count }, (_, i) => (2 * Math.PI * i) / count);
/** Twelve times closer on one side than on the other. */
const uneven = (count: number) => even(count).map((a) => a + 0.85 * Math.sin(a));

/** Largest error of curvature over the largest curvature, which is 2. */
function curvatureError(spline: ReturnType<typeof smoothSpline>): number {
  const at = createSplinePoint();
  let worst = 0;
  for (let i = 0; i < 2000; i++) {
    pointAt(spline, (i * spline.period) / 2000, at);
    const angle = Math.atan2(at.y, at.x / 2);
    const exact = 2 / (4 * Math.sin(angle) ** 2 + Math.cos(angle) ** 2) ** 1.5;
    const found = (at.dx * at.ddy - at.dy * at.ddx) / Math.hypot(at.dx, at.dy) ** 3;
    worst = Math.max(worst, Math.abs(found - exact) / 2);
  }
  return worst;
}

/** Largest distance of the points from the spline, across it at the nearest of many places. */
function farthest(spline: ReturnType<typeof smoothSpline>, x: Float64Array, y: Float64Array): number {
  const at = createSplinePoint();
  const fine = Array.from({ length: 5000 }, (_, i) => {
    pointAt(spline, (i * spline.period) / 5000, at);
    return { ...at };
  });
  const across = (px: number, py: number) => {
    let nearest = fine[0]!;
    let least = Number.POSITIVE_INFINITY;
    for (const q of fine) {
      const square = (px - q.x) ** 2 + (py - q.y) ** 2;
      if (square >= least) continue;
      nearest = q;
      least = square;
    }
    const { dx, dy } = nearest;
    return Math.abs((px - nearest.x) * dy - (py - nearest.y) * dx) / Math.hypot(dx, dy);
  };
  return x.reduce((most, px, i) => Math.max(most, across(px, y[i]!)), 0);
}

describe('smoothSpline', () => {
  it.each([
    ['even, 4 decimals', even(800), 4],
    ['even, 3 decimals', even(800), 3],
    ['uneven, 4 decimals', uneven(800), 4],
    ['uneven, 3 decimals', uneven(400), 3],
  ] as const)('does not take rounding for curvature: %s', (_, angles, decimals) => {
    const { x, y } = ellipse(angles, decimals);
    const unit = 10 ** -decimals;
    const spline = smoothSpline(x, y, unit);
    expect(curvatureError(spline)).toBeLessThan(0.08);
    expect(curvatureError(smoothSpline(x, y, 0))).toBeGreaterThan(0.5);
    expect(farthest(spline, x, y)).toBeLessThan(unit);
  });

  it('passes through points that were not rounded, and through few ones', () => {
    for (const [angles, decimals, unit] of [
      [uneven(200), 20, 0],
      [even(32), 9, 1e-9],
    ] as const) {
      const { x, y } = ellipse(angles, decimals);
      expect(smoothSpline(x, y, unit).x).toEqual(x);
    }
  });

  it('keeps within the last decimal of a lumpy outline of few points', () => {
    const angles = even(32);
    const round = (v: number) => Number(v.toFixed(2));
    const x = Float64Array.from(angles, (a, i) => round((1 + 0.1 * Math.sin(5 * i * i)) * Math.cos(a)));
    const y = Float64Array.from(angles, (a, i) => round((1 + 0.1 * Math.sin(5 * i * i)) * Math.sin(a)));
    expect(farthest(smoothSpline(x, y, 0.01), x, y)).toBeLessThan(0.01);
  });
});
