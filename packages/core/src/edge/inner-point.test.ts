import { describe, expect, it } from 'vitest';
import { largestDifference } from '../../../../test/fixtures/numbers.js';
import { bentNodes, ellipseNodes } from '../../../../test/fixtures/tee-reference.js';
import { createOutlineMeasure, measureOutline } from '../outline/index.js';
import { chooseInnerPoint } from './inner-point.js';
import { farFieldLoad, solveEdge } from './test/far-field.js';

const unlimited = { distance: () => Number.POSITIVE_INFINITY };
const chosen = (nodes: ReturnType<typeof ellipseNodes>, mirror: boolean) => {
  const point = { x: Number.NaN, y: Number.NaN };
  chooseInnerPoint(nodes, mirror, point);
  return point;
};
const arch = (count: number) => bentNodes({ middle: 0.8, sag: 0.4, halfWidth: 1.6, thickness: 0.25 }, count);

describe('chooseInnerPoint', () => {
  it.each([1e-3, 1, 1e3])('takes the centroid of a compact outline to the last bit, at %f times the size', (size) => {
    const nodes = ellipseNodes(size, 0.4 * size, [0.5 * size, 0.2 * size], 0.3, 64);
    const measure = createOutlineMeasure();
    measureOutline(nodes, unlimited, measure);
    expect(chosen(nodes, false)).toEqual({ x: measure.centroidX, y: measure.centroidY });
    expect(chosen(ellipseNodes(size, 0.4 * size, [0, 0.2 * size], 0, 64), true).x).toBe(0);
  });

  it.each([true, false])('takes a point inside a bent outline whose centroid is outside, mirror: %s', (mirror) => {
    const nodes = arch(192);
    const { x, y } = chosen(nodes, mirror);
    const spacing = (2 * Math.PI) / 192;
    nodes.x.forEach((px, j) => {
      const local = spacing * Math.hypot(nodes.dx[j]!, nodes.dy[j]!);
      expect(Math.hypot(px - x, nodes.y[j]! - y) / local).toBeGreaterThan(2);
    });
    expect(Math.abs(y - (0.8 - 0.4 * (x / 1.6) ** 2))).toBeLessThan(0.05);
  });

  it.each([1e-3, 1e3])('takes the same point of a bent outline at %f times the size', (size) => {
    const bent = bentNodes({ middle: 0.8 * size, sag: 0.4 * size, halfWidth: 1.6 * size, thickness: 0.25 * size }, 192);
    const [point, other] = [chosen(arch(192), false), chosen(bent, false)];
    expect(other.x / size).toBeCloseTo(point.x, 9);
    expect(other.y / size).toBeCloseTo(point.y, 9);
  });

  it('has no influence on the stress: a bent outline folded, whole and moved', () => {
    const load = farFieldLoad({ sx: 0.3, sy: 0.9, txy: 0 });
    const nodes = arch(384);
    const folded = solveEdge(nodes, load, { fold: 'half' }).hoop;
    const whole = solveEdge(nodes, load).hoop;
    const scale = Math.max(...whole.map(Math.abs));
    expect(largestDifference(folded, whole)).toBeLessThan(1e-7 * scale);
    const moved = arch(384);
    moved.x.forEach((_, j) => {
      moved.x[j]! += 3;
      moved.y[j]! -= 2;
    });
    expect(largestDifference(solveEdge(moved, load).hoop, whole)).toBeLessThan(1e-7 * scale);
  });

  it('is not a number where the outline is not', () => {
    const nodes = ellipseNodes(1, 0.5, [0, 0], 0, 32);
    nodes.y[3] = Number.NaN;
    expect(chosen(nodes, false).y).toBeNaN();
  });
});
