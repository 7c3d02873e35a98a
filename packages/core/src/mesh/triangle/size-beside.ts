import type { Loop } from './triangulate.js';

/** Growth of the sides away from those of the loops. */
const growth = 0.3;

/** Sides wanted at a point inside loops: those of the nearest side of a loop, growing away from it. */
export function sizeBeside(loops: readonly Loop[]): (x: number, y: number) => number {
  const sides = loops.flatMap(({ x, y }) =>
    Array.from({ length: x.length }, (_, i) => {
      const j = (i + 1) % x.length;
      return { x: (x[i]! + x[j]!) / 2, y: (y[i]! + y[j]!) / 2, length: Math.hypot(x[j]! - x[i]!, y[j]! - y[i]!) };
    }),
  );
  return (x, y) => {
    let size = Number.POSITIVE_INFINITY;
    for (const side of sides)
      if (side.length < size) size = Math.min(size, side.length + growth * Math.hypot(x - side.x, y - side.y));
    return size;
  };
}
