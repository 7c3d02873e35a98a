import { describe, expect, it } from 'vitest';
import { encroachedSegments, type Loop, triangulate } from './triangulate.js';

function polygon(radius: number, count: number, x0 = 0, y0 = 0) {
  const angles = Array.from({ length: count }, (_, i) => (2 * Math.PI * i) / count);
  return { x: angles.map((a) => x0 + radius * Math.cos(a)), y: angles.map((a) => y0 + radius * Math.sin(a)) };
}

function areaOf({ x, y }: Loop): number {
  let twice = 0;
  for (let i = 0; i < x.length; i++) {
    const k = (i + 1) % x.length;
    twice += x[i]! * y[k]! - x[k]! * y[i]!;
  }
  return twice / 2;
}

/** Area and smallest angle (degrees) of a triangulation. */
function measure({ x, y, triangles }: ReturnType<typeof triangulate>) {
  let area = 0;
  let smallest = 180;
  for (let t = 0; t < triangles.length; t += 3)
    for (let k = 0; k < 3; k++) {
      const [a, b, c] = [0, 1, 2].map((i) => triangles[t + ((k + i) % 3)]!) as [number, number, number];
      const [ux, uy, vx, vy] = [x[b]! - x[a]!, y[b]! - y[a]!, x[c]! - x[a]!, y[c]! - y[a]!];
      const twice = ux * vy - uy * vx;
      expect(twice).toBeGreaterThan(0);
      if (k === 0) area += twice / 2;
      smallest = Math.min(smallest, (Math.atan2(twice, ux * vx + uy * vy) * 180) / Math.PI);
    }
  return { area, smallest };
}

describe('triangulate', () => {
  const outer = polygon(4, 40);
  const hole = polygon(0.3, 24, 0.5, 0.2);
  const sizeAt = (x: number, y: number) => Math.min(0.7, 0.08 + 0.3 * (Math.hypot(x - 0.5, y - 0.2) - 0.3));

  it('fills the region between loops, from fine to coarse, without a sharp triangle', () => {
    const mesh = triangulate([outer, hole], sizeAt);
    const { area, smallest } = measure(mesh);
    expect(area).toBeCloseTo(areaOf(outer) - areaOf(hole), 10);
    expect(smallest).toBeGreaterThan(25);
    expect(mesh.triangles.length / 3).toBeLessThan(1200);
  });

  it('keeps the loops: their points first, every segment a side of exactly one triangle', () => {
    const { x, y, triangles } = triangulate([outer, hole], sizeAt);
    const directed = new Set<number>();
    for (let t = 0; t < triangles.length; t += 3)
      for (let k = 0; k < 3; k++) directed.add(triangles[t + k]! * x.length + triangles[t + ((k + 1) % 3)]!);
    outer.x.forEach((px, i) => {
      expect([x[i], y[i]]).toEqual([px, outer.y[i]]);
      const next = (i + 1) % 40;
      expect(directed.has(i * x.length + next)).toBe(true);
      expect(directed.has(next * x.length + i)).toBe(false);
    });
    for (let i = 0; i < 24; i++) expect(directed.has((40 + ((i + 1) % 24)) * x.length + 40 + i)).toBe(true);
  });

  it('gives the same mesh every time, and at absurd scales', () => {
    const first = triangulate([outer, hole], sizeAt);
    expect(triangulate([outer, hole], sizeAt)).toEqual(first);
    const scaled = (scale: number) => {
      const times = ({ x, y }: Loop) => ({ x: Array.from(x, (v) => scale * v), y: Array.from(y, (v) => scale * v) });
      return triangulate([times(outer), times(hole)], (x, y) => scale * sizeAt(x / scale, y / scale));
    };
    // Powers of two scale without rounding.
    expect(scaled(2 ** -10).triangles).toEqual(first.triangles);
    expect(scaled(2 ** 10).triangles).toEqual(first.triangles);
  });

  it('names segments that come too close to another loop', () => {
    expect(encroachedSegments([outer, hole])).toEqual([]);
    const found = encroachedSegments([outer, polygon(0.3, 24, 3.6, 0)]);
    expect(found.length).toBeGreaterThan(0);
    expect(found.every((segment) => segment < 40)).toBe(true);
  });
});
