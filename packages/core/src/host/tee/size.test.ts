import { describe, expect, it } from 'vitest';
import { readBrief, starterBrief } from '../../brief/index.js';
import type { TeeJoint } from '../index.js';
import { teeTriangles } from './check/triangles.js';
import { controlContour } from './contour.js';
import { estimateSize, keepsBound } from './size.js';
import { meshTee } from './tee-mesh.js';

const plies = (joint: TeeJoint, count: number, thickness: number) =>
  Array.from({ length: count }, (_, i) => ({ thickness, angle: i % 2 ? 0 : 90, ply: joint.filler }));

describe('the size of a joint', () => {
  it('is estimated within 30 % of the meshes that are made, and triangles never too few by more', {
    tags: 'long',
  }, async () => {
    const starter = (await readBrief(starterBrief)).joint as TeeJoint;
    const joints: TeeJoint[] = [
      starter,
      { ...starter, overlaminate: plies(starter, 30, 0.1) },
      { ...starter, skin: plies(starter, 60, 0.08) },
      { ...starter, overlaminate: plies(starter, 9, 0.03) },
      { ...starter, webHeight: 1000 },
    ];
    for (const joint of joints) {
      const { elements, triangles } = estimateSize(joint);
      const host = meshTee(joint, controlContour(joint.bendRadius, 0.2, 0.25)).body.mesh.elements.length / 9;
      const check = teeTriangles(joint, [], 1).triangles.length / 10;
      expect(Math.abs(elements / host - 1)).toBeLessThan(0.3);
      expect(triangles / check).toBeGreaterThan(0.7);
    }
  });

  it('bounds how finely a joint is solved where its model is in doubt', async () => {
    const starter = (await readBrief(starterBrief)).joint as TeeJoint;
    const large: TeeJoint = { ...starter, overlaminate: plies(starter, 240, 0.015) };
    expect(estimateSize(large).elements).toBeLessThan(23_500);
    expect([1, 4 / 3].map((finer) => [starter, large].map((joint) => keepsBound(joint, finer)))).toEqual([
      [true, true],
      [true, false],
    ]);
  });

  it('is refused before anything is spent on it where it would not fit 1 GB, by the bound of all sections', async () => {
    const thin = starterBrief.replace('plyThickness: 0.3 ', 'plyThickness: 0.0003 ');
    await expect(readBrief(thin)).rejects.toThrow(
      /host\.overlaminate\.plyThickness: expected a joint that is solved within 60 s and 1 GB, .*received one of about \d{3},\d{3} elements .*given in m\? Then write 0\.3$/,
    );
    const many = starterBrief.replace('layup: quasi-isotropic ', `layup: [${Array(190).fill(0).join(', ')}] `);
    await expect(readBrief(many)).rejects.toThrow(/host\.skin\.layup: expected .*40,000 triangles.*smear the skin/);
  });
});
