import type { Extent, OutlineSampler } from './curve.js';

/** Outlines whose area and perimeter are known independently of how they are sampled. For tests. */
export interface TestOutline extends Partial<Extent> {
  readonly name: string;
  readonly area: number;
  readonly sample: OutlineSampler;
}

function sampler(at: (s: number) => readonly [x: number, y: number, dx: number, dy: number]): OutlineSampler {
  return (count) => {
    const points = Array.from({ length: count }, (_, j) => at(-Math.PI / 2 + ((j + 0.5) * 2 * Math.PI) / count));
    return {
      x: points.map((p) => p[0]),
      y: points.map((p) => p[1]),
      dx: points.map((p) => p[2]),
      dy: points.map((p) => p[3]),
    };
  };
}

export function ellipse(halfWidth: number, halfHeight: number, y0: number, name = 'ellipse'): TestOutline {
  return {
    name,
    area: Math.PI * halfWidth * halfHeight,
    sample: sampler((s) => [
      halfWidth * Math.cos(s),
      y0 + halfHeight * Math.sin(s),
      -halfWidth * Math.sin(s),
      halfHeight * Math.cos(s),
    ]),
  };
}

/** Two half circles joined by straights: the curvature jumps four times. Sampled by arc length from the bottom. */
export function slot(halfLength: number, radius: number, y0: number): TestOutline {
  const perimeter = 4 * halfLength + 2 * Math.PI * radius;
  const speed = perimeter / (2 * Math.PI);
  return {
    name: 'slot',
    area: 4 * halfLength * radius + Math.PI * radius ** 2,
    perimeter,
    sample: sampler((s) => {
      const along = ((s + Math.PI / 2) / (2 * Math.PI)) * perimeter;
      const half = Math.PI * radius;
      const cap = (from: number, side: number): readonly [number, number, number, number] => {
        const angle = (-side * Math.PI) / 2 + (along - from) / radius;
        return [
          side * halfLength + radius * Math.cos(angle),
          y0 + radius * Math.sin(angle),
          -speed * Math.sin(angle),
          speed * Math.cos(angle),
        ];
      };
      if (along < halfLength) return [along, y0 - radius, speed, 0];
      if (along < halfLength + half) return cap(halfLength, 1);
      if (along < 3 * halfLength + half) return [2 * halfLength + half - along, y0 + radius, -speed, 0];
      if (along < 3 * halfLength + 2 * half) return cap(3 * halfLength + half, -1);
      return [along - perimeter, y0 - radius, speed, 0];
    }),
  };
}

/**
 * Three-tipped hypotrochoid `size (e^is + e e^-2is)`, a tip up; its tips have radius `size (1 - 2e)^2 / (1 + 4e)`,
 * here 0.012 mm per mm at e = 0.43.
 */
export function deltoid(size: number, e: number, y0: number): TestOutline {
  return {
    name: 'deltoid',
    area: Math.PI * size ** 2 * (1 - 2 * e ** 2),
    sample: sampler((s) => {
      // Turned so that a tip points up: z -> i z, parameter shifted by a quarter turn.
      const t = s - Math.PI / 2;
      const [x, y] = [Math.cos(t) + e * Math.cos(2 * t), Math.sin(t) - e * Math.sin(2 * t)];
      const [dx, dy] = [-Math.sin(t) - 2 * e * Math.sin(2 * t), Math.cos(t) - 2 * e * Math.cos(2 * t)];
      return [-size * y, y0 + size * x, -size * dy, size * dx];
    }),
  };
}

export const TEST_OUTLINES: readonly TestOutline[] = [
  ellipse(0.25, 0.25, 1.25, 'circle'),
  ellipse(2, 0.2, 0.5),
  slot(1.2, 0.12, 0.4),
  deltoid(0.9, 0.43, 1.2),
];
