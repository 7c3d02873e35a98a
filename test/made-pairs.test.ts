import { describe, expect, it } from 'vitest';
import { hostOf, meshJoint } from '../packages/core/src/host/index.js';
import { sectionStiffness } from '../packages/core/src/material/index.js';
import { edgeCurve, edgeHoops, edgePeak } from '../packages/core/src/mesh/triangle/index.js';
import { type CurveNodes, placedChannels } from '../packages/core/src/outline/index.js';
import { createStrengthModel } from '../packages/core/src/strength/index.js';
import { createStressModel } from '../packages/core/src/stress/index.js';
import { deviateNodes } from '../packages/optimizer/src/scatter/index.js';
import { slottedLaminate } from './fixtures/laminates.js';
import { reducedOnce } from './fixtures/reduced.js';
import { ellipseNodes } from './fixtures/tee-reference.js';

const slot = slottedLaminate(1);
const host = hostOf(slot);
const model = reducedOnce(slot, { wall: 0.06, edgeRadius: 0.08 });
const loads = {
  stretch: { strain: 0.001, force: 0 },
  bend: { moment: 30 },
  shear: { force: 10 },
  flatwise: { stress: 5 },
  cure: { deltaT: -60 },
};
const cases = [
  { name: 'sheared', factors: { shear: 1, cure: 1 } },
  { name: 'opened', factors: { flatwise: 1, stretch: 0.5 } },
];
const stress = createStressModel(model, loads, cases, { channels: { number: 2 } });
const drawn = (count: number) => ellipseNodes(0.2, 0.12, [0.3, 0.75], 0.1, count);

/** Each by its own: one larger, higher and turned, the other one of three waves, further out. */
function made(count: number): CurveNodes[] {
  const [right, left] = placedChannels(drawn(count), { number: 2 }).map(({ nodes }) => nodes) as [
    CurveNodes,
    CurveNodes,
  ];
  deviateNodes(right, { size: 0.015, waves: [0.01, 0, 0, 0, 0, 0.005], x: -0.04, y: 0.02, turn: 6 });
  deviateNodes(left, { size: -0.01, waves: [0, 0, 0.012, 0.008, 0, 0], x: -0.06, y: -0.03, turn: -4 });
  return [right, left];
}

describe('two channels in a slot as they are made', () => {
  it('have the peaks of the mesh within 0.5 %, each of them', () => {
    const fast = stress.evaluateEach(made(192));
    const { mesh, solutions } = meshJoint(slot, loads, made(256).map(edgeCurve), 1.5);
    const material = sectionStiffness({ angle: 90, ply: host.material });
    stress.loads.forEach((name, l) => {
      const { u, deltaT, pressure } = solutions.get(name)!;
      const edges = edgeHoops(mesh, material, { u, deltaT, pressure });
      edges.forEach((edge, k) => {
        const { peak, least } = edgePeak(edge, edge.hoop);
        const own = Math.max(...fast.each[k]!.hoop[l]!);
        expect(Math.abs(own - peak) / Math.max(Math.abs(peak), Math.abs(least)), `${name}, ${k}`).toBeLessThan(0.005);
      });
    });
  });

  it('are the symmetric pair where they do not deviate, at the edges and at every place of the laminate', () => {
    const strength = createStrengthModel(model, slot, loads, cases, { edge: 'peak' });
    const together = stress.evaluate(drawn(160), false);
    const peaks = together.cases.map(({ peak }) => peak);
    const places = strength.survey(together);
    const apart = stress.evaluateEach(placedChannels(drawn(160), { number: 2 }).map(({ nodes }) => nodes));
    apart.cases.forEach(({ peak }, c) => {
      expect(peak / peaks[c]!).toBeCloseTo(1, 9);
    });
    strength.survey(apart).forEach((one, c) => {
      expect(one.places.length).toBeGreaterThan(3);
      one.places.forEach(({ place, factor }, p) => {
        expect(place).toBe(places[c]!.places[p]!.place);
        expect(factor / places[c]!.places[p]!.factor).toBeCloseTo(1, 9);
      });
    });
  });
});
