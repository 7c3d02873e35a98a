import { describe, expect, it } from 'vitest';
import { placed } from '../../../../test/fixtures/outline-checks.js';
import { createFamily } from './create-family.js';
import type { OutlineRoom } from './family.js';
import { nodesNeeded } from './node-rule.js';
import { type CurveNodes, createCurveNodes, nodeParameter } from './nodes.js';

const room: OutlineRoom = { mirror: true, xMin: -30, xMax: 30, yMin: -30, yMax: 30, edgeRadius: 0 };
const ellipse = createFamily('ellipse', room);
const needed = (nodes: CurveNodes) => nodesNeeded(nodes);

describe('nodesNeeded', () => {
  it('is a multiple of 16 between 48 and 512', () => {
    expect(needed(placed(ellipse, [0, 1, 1], 64))).toBe(48);
    expect(needed(placed(ellipse, [0, 20, 0.02], 64))).toBe(512);
    for (let height = 0.1; height < 2; height += 0.1) expect(needed(placed(ellipse, [0, 2, height], 64)) % 16).toBe(0);
  });

  it('keeps curvature times spacing below 0.6 at the tips of an ellipse', () => {
    for (const ratio of [4, 6, 10]) {
      const count = needed(placed(ellipse, [0, 2 * ratio, 2], 64));
      // At the tip: spacing b h, radius b^2 / a.
      const product = (2 * Math.PI * ratio) / count;
      expect(product).toBeLessThanOrEqual(0.6);
      expect(product).toBeGreaterThan(0.6 * (1 - 16 / count));
    }
  });

  it('keeps the spacing below 0.3 of the thickness of a neck', () => {
    // r = 1 - q cos 2 (s - pi/2) has a neck of 2 (1 - q) at x = 0, where the spacing is (1 - q) h and the outer curvature larger.
    const neck = outline((s) => 1 + 0.5 * Math.cos(2 * s));
    const count = needed(neck);
    const radius = 1 / 6;
    expect((0.5 * 2 * Math.PI) / count / radius).toBeLessThanOrEqual(0.6);
  });

  it('sees thin material between two parts of the outline as it sees a thin channel', () => {
    const wide = needed(bentBand(2.6));
    const narrow = needed(bentBand(2.95));
    expect(narrow).toBeGreaterThan(wide);
  });

  it('does not depend on scale, and little on the nodes it is given', () => {
    expect(needed(placed(ellipse, [0, 8e-3, 1e-3], 64))).toBe(needed(placed(ellipse, [0, 8, 1], 64)));
    expect(
      Math.abs(needed(placed(ellipse, [0, 8, 1], 64)) - needed(placed(ellipse, [0, 8, 1], 256))),
    ).toBeLessThanOrEqual(16);
  });
});

function outline(radius: (s: number) => number): CurveNodes {
  return curve((s) => [radius(s) * Math.cos(s), radius(s) * Math.sin(s)]);
}

/** A ring-shaped band of middle radius 1 over the angles -reach to reach. */
function bentBand(reach: number): CurveNodes {
  return curve((s) => {
    const angle = reach * Math.sin(s);
    const radius = 1 + 0.2 * Math.cos(s);
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });
}

function curve(at: (s: number) => [number, number]): CurveNodes {
  const nodes = createCurveNodes(256);
  const e = 1e-4;
  for (let j = 0; j < 256; j++) {
    const s = nodeParameter(j, 256);
    const [a, b, c] = [at(s - e), at(s), at(s + e)];
    [nodes.x[j], nodes.y[j]] = b;
    nodes.dx[j] = (c[0] - a[0]) / (2 * e);
    nodes.dy[j] = (c[1] - a[1]) / (2 * e);
    nodes.ddx[j] = (c[0] - 2 * b[0] + a[0]) / (e * e);
    nodes.ddy[j] = (c[1] - 2 * b[1] + a[1]) / (e * e);
  }
  return nodes;
}

it('keeps the spacing below 0.3 of the material between two channels', () => {
  const beside = createFamily('ellipse', { ...room, mirror: false });
  for (const gap of [0.2, 0.1]) {
    const nodes = placed(beside, [1 + gap / 2, 0, 2, 2, 0], 128);
    const count = nodesNeeded(nodes, 48, [0]);
    // A circle of radius 1: nodes stand 2 pi / count apart, and the two face each other on the line of their centres.
    expect(needed(nodes)).toBe(48);
    expect((2 * Math.PI) / count / gap).toBeLessThanOrEqual(0.305);
    expect((2 * Math.PI) / (count - 16) / gap).toBeGreaterThan(0.29);
  }
});
