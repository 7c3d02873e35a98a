import { beforeAll, describe, expect, it } from 'vitest';
import { type CurveNodes, createCurveNodes, curveNodesNeeded, fitPoints } from '../packages/core/src/outline/index.js';
import { createStressModel, meshedStress, type StressModel } from '../packages/core/src/stress/index.js';
import { reducedTee } from './fixtures/reduced.js';
import { bentNodes, referenceJoint, referenceLoads } from './fixtures/tee-reference.js';

let model: StressModel;
beforeAll(() => {
  model = createStressModel(reducedTee(referenceJoint, 0.12, 0.12), referenceLoads, []);
});

const meshed = (nodes: CurveNodes): number[] => {
  const { pull, cure } = meshedStress(referenceJoint, referenceLoads, [], nodes, { coarseness: 1.5 }).loads;
  return [pull!.peak, cure!.peak];
};

function expectPeaks(nodes: CurveNodes, mirror: boolean, expected: readonly number[], tolerance: number): void {
  model.evaluate(nodes, mirror).loads.forEach(({ peak }, l) => {
    expect(Math.abs(peak / expected[l]! - 1)).toBeLessThan(tolerance);
  });
}

describe('inner point beside the axis of a bent mirror-symmetric outline', { tags: 'long' }, () => {
  // Solved with it alone as if it lay on the axis: 280 and 187 MPa for 298 and 151 at 512 nodes, 269 and 213 at 384.
  const arch = (count: number) => bentNodes({ middle: 0.8, sag: 0.4, halfWidth: 1.6, thickness: 0.25 }, count);

  it('is used together with its image: peaks within 0.5 % of the mesh, and converging', () => {
    const expected = meshed(arch(512));
    for (const mirror of [true, false])
      for (const count of [192, 256, 384, 512]) expectPeaks(arch(count), mirror, expected, 0.005);
    const finest = model.evaluate(arch(512), true).loads.map(({ peak }) => peak);
    expectPeaks(arch(128), true, finest, 0.02);
    expectPeaks(arch(192), true, finest, 5e-4);
    expectPeaks(arch(256), true, finest, 1e-5);
  });
});

describe('points of a slot with straight flanks, where nodes followed the curvature only', { tags: 'long' }, () => {
  // 256 nodes lay 0.1 mm apart in a slot 0.2 mm thick: 69 and 423 MPa for 115 and 131; 512 were asked for.
  const [halfLength, radius, middle] = [1.8, 0.1, 0.3];
  const flank = Array.from({ length: 161 }, (_, i) => (i / 80 - 1) * halfLength);
  const turn = Array.from({ length: 23 }, (_, i) => ((i + 1) / 24) * Math.PI);
  const points = [1, -1].flatMap((side) => [
    ...flank.map((x): [number, number] => [side * x, middle - side * radius]),
    ...turn.map((angle): [number, number] => [
      side * (halfLength + radius * Math.sin(angle)),
      middle - side * radius * Math.cos(angle),
    ]),
  ]);

  it('gets nodes by its thickness: peaks within 0.5 % of the mesh with the nodes it needs', () => {
    const curve = fitPoints(points);
    expect(curve.mirror).toBe(true);
    const count = curveNodesNeeded(curve);
    expect(count).toBeLessThanOrEqual(256);
    const at = (howMany: number) => {
      const nodes = createCurveNodes(howMany);
      curve.place(nodes);
      return nodes;
    };
    const expected = meshed(at(512));
    for (const howMany of [count, 2 * count]) expectPeaks(at(howMany), true, expected, 0.005);
  });
});
