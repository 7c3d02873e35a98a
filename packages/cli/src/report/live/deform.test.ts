import { createCurveNodes, ellipseFamily, nodeParameter } from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { deform, handleCount, handlePlaces, undeformed, withHandle } from './deform.js';

const family = ellipseFamily({ mirror: true, xMin: -3, xMax: 3, yMin: 0, yMax: 4, edgeRadius: 0.1 });
const ellipse = { mirror: true, place: (nodes: ReturnType<typeof createCurveNodes>) => family.place([2, 2, 1], nodes) };
const changed = withHandle({ ...undeformed(), width: 1.2, up: 0.1 }, true, 2, 0.08, -0.05);

describe('an outline changed by hand', () => {
  it('has the derivatives of its points', () => {
    const nodes = createCurveNodes(512);
    deform(ellipse, changed).place(nodes);
    const { count, x, y, dx, dy, ddx, ddy } = nodes;
    const h = nodeParameter(1, count) - nodeParameter(0, count);
    for (const [of, by] of [
      [x, dx],
      [y, dy],
      [dx, ddx],
      [dy, ddy],
    ] as const)
      for (let j = 0; j < count; j++) {
        const at = (i: number) => of[(j + i + count) % count]!;
        expect((at(-2) - 8 * at(-1) + 8 * at(1) - at(2)) / (12 * h)).toBeCloseTo(by[j]!, 4);
      }
  });

  it('stays mirror-symmetric, and its handle goes where it is moved', () => {
    const nodes = createCurveNodes(64);
    deform(ellipse, changed).place(nodes);
    for (let j = 0; j < 64; j++) expect(nodes.x[63 - j]!).toBeCloseTo(-nodes.x[j]!, 12);
    const before = handlePlaces(ellipse);
    const one = withHandle(undeformed(), false, 4, 0.1, 0.2);
    const after = handlePlaces(deform(ellipse, one));
    expect(after[4]![0] - before[4]![0]).toBeCloseTo(0.1, 12);
    expect(after[4]![1] - before[4]![1]).toBeCloseTo(0.2, 12);
    expect(before).toHaveLength(handleCount);
  });
});
