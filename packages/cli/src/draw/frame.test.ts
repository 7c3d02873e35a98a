import {
  createCurveNodes,
  followOutline,
  hostOf,
  meshedSection,
  outlineOf,
  readBrief,
  wholeRoom,
} from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { polygonExtent, prepareDrawing, toDxf } from './index.js';

const brief = await readBrief(`
host:
  kind: tee
  bendRadius: 6
  overlaminate: { layup: [90, 0, 0, 90], plyThickness: 0.5 }
  pocket: { in: bend, turn: 35, made: drape, above: 2, height: 0.4, film: 0.1 }
loads: { pull: { force: 30 } }
channel: { wall: 0.08, edgeRadius: 0.08 }
`);
/** A circle in the middle of the pocket, 1 mm off the face to the filler. */
const outline = outlineOf({ family: 'ellipse', parameters: { y: 1, width: 0.3, height: 0.3 } }, wholeRoom(brief));
const sample = (count: number) => {
  const nodes = createCurveNodes(count);
  outline.place(nodes);
  return nodes;
};
const angle = (35 * Math.PI) / 180;
/** In the joint: 5 mm from the middle of the bend's arc, which lies at (6, 6). */
const middle = [6 - 5 * Math.sin(angle), 6 - 5 * Math.cos(angle)] as const;

describe('a drawing of a pocket in a bend', () => {
  const { shape } = hostOf(followOutline(brief, outline).joint);
  const drawing = prepareDrawing({ outline: sample, shape: shape! });

  it('has other channels on the other side of the middle of the pocket, where the joint has its own elsewhere', () => {
    const beside = (count: number) => {
      const nodes = sample(count);
      for (let j = 0; j < count; j++) nodes.x[j]! += 0.4;
      return nodes;
    };
    const two = prepareDrawing({ outline: beside, shape: shape!, channels: { number: 2 } });
    const centre = ({ vertices }: { readonly vertices: Float64Array }) =>
      [0, 1].map((axis) => {
        const own = [...vertices].filter((_, i) => i % 2 === axis);
        return (Math.min(...own) + Math.max(...own)) / 2;
      });
    const along = [Math.cos(angle), -Math.sin(angle)] as const;
    [two, ...two.others!].forEach((one, k) => {
      const [x, y] = centre(one);
      const sign = k === 0 ? 1 : -1;
      expect(x).toBeCloseTo(middle[0] + sign * 0.4 * along[0], 3);
      expect(y).toBeCloseTo(middle[1] + sign * 0.4 * along[1], 3);
      expect(polygonExtent(one.vertices).area).toBeGreaterThan(0);
    });
  });

  it('stands in the axes of the joint, channel and all', () => {
    const { vertices } = drawing;
    const mean = [0, 1].map((axis) => {
      const own = [...vertices].filter((_, i) => i % 2 === axis);
      return (Math.min(...own) + Math.max(...own)) / 2;
    });
    expect(mean[0]).toBeCloseTo(middle[0], 3);
    expect(mean[1]).toBeCloseTo(middle[1], 3);
    // The web stands upright, in the middle; the skin lies below.
    const skin = drawing.shape!.parts!.find(({ name }) => name === 'skin')!;
    expect([skin.path.from, ...skin.path.steps.map(({ to }) => to)].every(([, y]) => y < 1e-9)).toBe(true);
    const { xMin, xMax } = drawing.shape!.whole;
    expect(xMin + xMax).toBeCloseTo(0, 9);
    expect(drawing.shape!.frame).toBeUndefined();
    expect(toDxf(drawing)).toContain('SKIN');
  });

  it('shows the same extent as in its own frame', () => {
    const told = prepareDrawing({ outline: sample });
    expect(drawing.area).toBeCloseTo(told.area, 9);
    expect(drawing.perimeter).toBeCloseTo(told.perimeter, 9);
  });

  it('has its mesh there as well, with stresses turned', { timeout: 120_000 }, () => {
    const nodes = sample(96);
    const section = meshedSection(brief.joint, brief.loads, brief.cases, nodes, { coarseness: 4 });
    const bottom = section.y.reduce((a, b) => Math.min(a, b));
    const skinDepth = hostOf(brief.joint).shape!.frame!.whole.yMin;
    expect(bottom).toBeGreaterThan(skinDepth);
    expect(section.x.reduce((a, b) => Math.min(a, b)) + section.x.reduce((a, b) => Math.max(a, b))).toBeCloseTo(0, 9);
    // High up the web, pulled by 30 N/mm over its whole thickness: nothing pulls across, and none of it shears.
    const [found] = Object.values(section.cases);
    const top = section.y.reduce((a, b) => Math.max(a, b));
    let [most, across] = [0, 0];
    section.nodeOf.forEach((node, point) => {
      if (section.y[node]! < top - 2) return;
      most = Math.max(most, found!.stress[4 * point + 1]!);
      across = Math.max(across, Math.abs(found!.stress[4 * point]!));
    });
    expect(most).toBeGreaterThan(5);
    expect(across).toBeLessThan(0.1 * most);
  });
});
