import { expect, it } from 'vitest';
import { InputError } from '../../../errors.js';
import type { SectionMesh } from '../../../mesh/quad/index.js';
import { fillAround } from './fill-around.js';
import { untilApart } from './tee-mesh.js';

/** Nine-node squares of side 1 in a square of side 5, those in the middle of it open. */
function square(): SectionMesh {
  const places = Array.from({ length: 121 }, (_, node) => [node % 11, Math.floor(node / 11)] as const);
  const cells = places.filter(([i, j]) => i < 5 && j < 5 && (i % 4 === 0 || j % 4 === 0));
  const within = [0, 1, 2].flatMap((row) => [0, 1, 2].map((column) => 11 * row + column));
  return {
    x: Float64Array.from(places, ([i]) => i / 2),
    y: Float64Array.from(places, ([, j]) => j / 2),
    elements: Int32Array.from(cells.flatMap(([i, j]) => within.map((node) => 22 * j + 2 * i + node))),
    material: new Int32Array(cells.length),
    axes: cells.map(() => ({ kind: 'straight', angle: 0 }) as const),
  };
}

/** A polygon's corners and middles of sides. */
const around = (at: number, radius: number, count = 8) => {
  const angles = Array.from({ length: 2 * count }, (_, i) => (i * Math.PI) / count);
  return { x: angles.map((a) => at + radius * Math.cos(a)), y: angles.map((a) => at + radius * Math.sin(a)) };
};

it('fills the opening that goes round what stays open, and no other place', () => {
  const filled = fillAround(square(), { inner: around(2.5, 0.6), material: 1 })!;
  expect(filled.mesh.triangles!.material.length).toBeGreaterThan(8);
  expect(filled.inner).toHaveLength(16);
  expect(fillAround(square(), { inner: around(0.5, 0.2), material: 1 })).toBeUndefined();
  expect(fillAround(square(), { inner: around(2.5, 1.45), material: 1 })).toBeUndefined();
});

it('gives up on a channel that nothing can be meshed around, in words', () => {
  const tried: number[] = [];
  const never = (finer: number) => {
    tried.push(finer);
    return undefined;
  };
  expect(() => untilApart('host.filler.channel', never)).toThrow(InputError);
  expect(tried.length).toBeGreaterThan(4);
  expect(() => untilApart('host.filler.channel', never)).toThrow(
    /^host\.filler\.channel: expected .*, received .*; make it smaller/,
  );
});
