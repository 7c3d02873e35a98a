import fc from 'fast-check';
import { expect, it } from 'vitest';
import { crossesItself } from './simple.js';

type Point = readonly [x: number, y: number];

/** Whether two segments share a point: where their lines meet (Cramer), or, of parallel ones, whether the ends of one lie on the other. Exact on whole numbers. */
function meet([a, b]: readonly [Point, Point], [c, d]: readonly [Point, Point]): boolean {
  const [ux, uy, vx, vy, wx, wy] = [b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1], c[0] - a[0], c[1] - a[1]];
  const determinant = ux * vy - uy * vx;
  if (determinant !== 0) {
    const along = (wx * vy - wy * vx) * Math.sign(determinant);
    const other = (wx * uy - wy * ux) * Math.sign(determinant);
    const most = Math.abs(determinant);
    return along >= 0 && along <= most && other >= 0 && other <= most;
  }
  const lies = (p: Point, [from, to]: readonly [Point, Point]) => {
    const [ex, ey, px, py] = [to[0] - from[0], to[1] - from[1], p[0] - from[0], p[1] - from[1]];
    const inner = ex * px + ey * py;
    return ex * py - ey * px === 0 && inner >= 0 && inner <= ex * ex + ey * ey;
  };
  return lies(a, [c, d]) || lies(b, [c, d]) || lies(c, [a, b]) || lies(d, [a, b]);
}

it('a polygon crosses itself where two edges that are not neighbours share a point', () => {
  const coordinate = fc.integer({ min: 0, max: 6 });
  const found = { crossing: 0, simple: 0 };
  fc.assert(
    fc.property(fc.array(fc.tuple(coordinate, coordinate), { minLength: 4, maxLength: 8 }), (points) => {
      const count = points.length;
      const edges = points.map((point, i) => [point, points[(i + 1) % count]!] as const);
      const expected = edges.some((edge, i) =>
        edges.some((other, j) => j > i + 1 && !(i === 0 && j === count - 1) && meet(edge, other)),
      );
      found[expected ? 'crossing' : 'simple']++;
      const [x, y] = [points.map((point) => point[0]), points.map((point) => point[1])];
      expect(crossesItself(x, y, count)).toBe(expected);
    }),
    { seed: 1, numRuns: 2000 },
  );
  expect(Math.min(found.crossing, found.simple)).toBeGreaterThan(100);
});
