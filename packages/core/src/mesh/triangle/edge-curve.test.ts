import { describe, expect, it } from 'vitest';
import { type CurveNodes, createCurveNodes, nodeParameter } from '../../outline/index.js';
import { edgeCurve } from './edge-curve.js';

function ellipse(a: number, b: number, count: number): CurveNodes {
  const nodes = createCurveNodes(count);
  for (let j = 0; j < count; j++) {
    const s = nodeParameter(j, count);
    nodes.x[j] = a * Math.cos(s);
    nodes.y[j] = b * Math.sin(s);
    nodes.dx[j] = -a * Math.sin(s);
    nodes.dy[j] = b * Math.cos(s);
    nodes.ddx[j] = -nodes.x[j]!;
    nodes.ddy[j] = -nodes.y[j]!;
  }
  return nodes;
}

describe('edgeCurve', () => {
  const out = new Float64Array(5);

  it('runs a circle by arc length from its bottom', () => {
    const curve = edgeCurve(ellipse(0.5, 0.5, 64));
    expect(curve.length).toBeCloseTo(Math.PI, 9);
    for (const turn of [0, 0.3, 1, 2.5, 6, 7]) {
      curve.at(0.5 * turn, out);
      expect(out[0]).toBeCloseTo(0.5 * Math.sin(turn), 9);
      expect(out[1]).toBeCloseTo(-0.5 * Math.cos(turn), 9);
      expect(out[2]).toBeCloseTo(Math.cos(turn), 7);
      expect(out[3]).toBeCloseTo(Math.sin(turn), 7);
      expect(out[4]).toBeCloseTo(2, 4);
    }
  });

  it('gives every node at its own arc length', () => {
    const nodes = ellipse(0.8, 0.3, 48);
    const curve = edgeCurve(nodes);
    for (let j = 0; j < 48; j++) {
      curve.at(curve.arcOfNode(j), out);
      expect(Math.hypot(out[0]! - nodes.x[j]!, out[1]! - nodes.y[j]!)).toBeLessThan(1e-13);
    }
  });

  it('converges with the sixth power of the node spacing', () => {
    const miss = (count: number) => {
      const curve = edgeCurve(ellipse(2, 1, count));
      let worst = 0;
      for (let k = 0; k < 500; k++) {
        curve.at((curve.length * k) / 500, out);
        worst = Math.max(worst, Math.abs((out[0]! / 2) ** 2 + out[1]! ** 2 - 1));
      }
      return worst;
    };
    expect(Math.log2(miss(32) / miss(64))).toBeGreaterThan(5.5);
  });

  it('refuses an outline that is no curve', () => {
    expect(() => edgeCurve(createCurveNodes(16))).toThrow(/positive length, received 0/);
    const broken = ellipse(1, 1, 16);
    broken.x[3] = Number.NaN;
    expect(() => edgeCurve(broken)).toThrow(/received NaN/);
  });
});
