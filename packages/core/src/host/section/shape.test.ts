import { expect, it } from 'vitest';
import { discJoint } from '../../../../../test/fixtures/section-joints.js';
import { hostOf } from '../registry.js';
import type { ShapePath } from '../shape.js';

/** Of straight steps, signed (Gauss's shoelaces). */
function areaOf({ from, steps }: ShapePath): number {
  const points = [from, ...steps.map(({ to }) => to)];
  return points.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = points[(i + 1) % points.length]!;
    return sum + (x * nextY - y * nextX) / 2;
  }, 0);
}

it('shows a filler of radius 2 in a wrap of 0.5 in a square of 16', () => {
  const host = hostOf(discJoint());
  const { room, roomBox, layers, parts, whole } = host.shape!;
  expect(areaOf(room)).toBeCloseTo(Math.PI * 4, 1);
  expect(layers.map(({ angle }) => angle).sort()).toEqual([0, 30]);
  // Holes are left out.
  const areas = layers.map(({ path }) => areaOf(path)).sort((a, b) => a - b);
  expect(areas[0]! / (Math.PI * 2.5 ** 2)).toBeCloseTo(1, 2);
  expect(areas[1]).toBeCloseTo(256, 6);
  expect(parts!.map(({ path }) => areaOf(path))).toEqual([areas[1]]);
  expect([roomBox.xMin, roomBox.xMax, roomBox.yMin, roomBox.yMax].map((v) => Math.abs(v))).toEqual(
    [2, 2, 2, 2].map((v) => expect.closeTo(v, 6)),
  );
  expect(whole.xMax).toBeGreaterThan(8);
});

it('has room for a channel up to its wall, or as far as one is to be large', () => {
  const host = hostOf(discJoint());
  const wish = { mirror: false, wall: 0.2, edgeRadius: 0.3 };
  const whole = host.room(wish);
  expect(whole.xMax).toBeCloseTo(1.8, 1);
  expect(whole.yMin).toBeCloseTo(-1.8, 1);
  const some = host.room({ ...wish, largest: { width: 2, height: 1 } });
  expect(some.xMax - some.xMin).toBeCloseTo(2, 9);
  expect(some.yMax - some.yMin).toBeCloseTo(1, 9);
  expect(Object.fromEntries(host.summary)).toMatchObject({ held: 'bottom x y', surfaces: 'wrap 0, sheet 30' });
});
