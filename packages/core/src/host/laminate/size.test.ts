import { expect, it } from 'vitest';
import { drapedLaminate, slottedLaminate } from '../../../../../test/fixtures/laminates.js';
import { hostOf, type LaminateJoint } from '../index.js';
import { laminateTriangles } from './check/triangles.js';
import { controlContour } from './contour.js';
import { meshLaminate } from './laminate-mesh.js';

const wish = { wall: 0.05, edgeRadius: 0.08 };

it.each<[string, LaminateJoint, typeof wish]>([
  ['a lens', drapedLaminate(1), wish],
  ['a slot', slottedLaminate(1), wish],
  ['a wide laminate', { ...drapedLaminate(1), width: 300 }, wish],
  ['a thin wall', drapedLaminate(1), { wall: 0.012, edgeRadius: 0.012 }],
])('tells the size of a laminate before it is meshed: %s', (_, joint, wish) => {
  const { elements, contour, triangles } = hostOf(joint).size!(wish);
  const edges = controlContour(joint, wish);
  expect(contour).toBe((edges.x.length - 1) / 2);
  expect(elements).toBe(meshLaminate(joint, edges).body.mesh.elements.length / 9);
  // Without the 1,200 or so around a channel.
  const made = laminateTriangles(joint, [], 1).triangles.length / 10 + 1200;
  expect(Math.abs(triangles / made - 1)).toBeLessThan(0.35);
});
