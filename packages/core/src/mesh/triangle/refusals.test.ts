import { describe, expect, it } from 'vitest';
import { referencePly } from '../../../../../test/fixtures/tee-reference.js';
import { sectionStiffness } from '../../material/index.js';
import { assembleCubic, type CubicMesh, createCubicMeshBuilder, edgeHoops, edgePeak, turnedPlace } from './index.js';

const material = sectionStiffness({ angle: 90, ply: referencePly });

/** One triangle, counter-clockwise or not. */
function triangle(turned: boolean): CubicMesh {
  const builder = createCubicMeshBuilder();
  const [a, b, c] = [builder.corner(0, 0), builder.corner(1, 0), builder.corner(0, 1)];
  if (turned) builder.triangle(a, c, b, 0);
  else builder.triangle(a, b, c, 0);
  return builder.finish([{ place: 'sheet', layer: -1, material, normal: { angle: 0 } }]);
}

describe('a mesh of cubic triangles', () => {
  it('is refused where a triangle is turned inside out, with its place', () => {
    expect(turnedPlace(triangle(false))).toBeUndefined();
    expect(turnedPlace(triangle(true))).toHaveLength(2);
    expect(() => assembleCubic(triangle(false))).not.toThrow();
    expect(() => assembleCubic(triangle(true))).toThrow(/triangle 0 is turned inside out near \(0\.\d+, 0\.\d+\)/);
  });

  it('has no hoop stress without a channel, and no peak of what is no number', () => {
    const mesh = triangle(false);
    const u = new Float64Array(2 * mesh.x.length + 1);
    expect(() => edgeHoops(mesh, material, { u, deltaT: 0, pressure: 0 })).toThrow('the mesh has no channel');
    const edge = { arc: Float64Array.of(0, 1, 2), length: 3, x: new Float64Array(3), y: new Float64Array(3) };
    expect(() => edgePeak(edge as never, new Float64Array(3).fill(Number.NaN))).toThrow('hoop stress is not finite');
  });

  it('bends no side that another triangle has as a straight one', () => {
    const builder = createCubicMeshBuilder();
    const [a, b, c] = [builder.corner(0, 0), builder.corner(1, 0), builder.corner(0, 1)];
    builder.triangle(a, b, c, 0);
    expect(() => builder.curve(a, b, () => [0.5, -0.1])).toThrow('is straight already');
  });
});
