import { describe, expect, it } from 'vitest';
import { exactSlopes } from '../packages/core/src/edge/index.js';
import { createStrengthModel, meshedStrength } from '../packages/core/src/strength/index.js';
import { createStressModel, meshedStress } from '../packages/core/src/stress/index.js';
import { slottedLaminate } from './fixtures/laminates.js';
import { largestDifference } from './fixtures/numbers.js';
import { reducedOnce, reducedTee } from './fixtures/reduced.js';
import { slopesAndDifferences } from './fixtures/slopes-and-differences.js';
import { ellipseNodes, referenceJoint } from './fixtures/tee-reference.js';

// `node benchmarks/agreement-side-by-side.js` does the first to random outlines.

const slot = slottedLaminate(1);
const inSlot = () => reducedOnce(slot, { wall: 0.06, edgeRadius: 0.08 });
const slotLoads = {
  stretch: { strain: 0.001, force: 0 },
  bend: { moment: 30 },
  shear: { force: 10 },
  flatwise: { stress: 5 },
  cure: { deltaT: -60 },
  pressure: { pressure: 0.5 },
};
const slotCases = [{ name: 'all', factors: { stretch: 1, bend: 1, shear: 1, flatwise: 1, cure: 1, pressure: 1 } }];

describe('channels side by side', { tags: 'long' }, () => {
  it.each([
    ['three, nearly touching', 3, 0.3, 0.13, 0.13, 0, 0],
    ['four, turned and off the middle of their cells', 4, 0.4, 0.14, 0.1, 0.21, 0.3],
  ] as const)(
    '%s: in a slot they have the peaks of the mesh within half a percent, where it has them',
    (_, number, pitch, a, b, x, turn) => {
      const channels = { number, pitch };
      const outline = (count: number) => ellipseNodes(a, b, [x, 0.75], turn, count);
      const fast = createStressModel(inSlot(), slotLoads, slotCases, { channels }).evaluate(outline(160), false);
      const meshed = meshedStress(slot, slotLoads, slotCases, outline(256), { channels, coarseness: 1.5 });
      [...fast.loads, ...fast.cases].forEach((one, i) => {
        const [name, other] = [...Object.entries(meshed.loads), ...Object.entries(meshed.cases)][i]!;
        const scale = Math.max(Math.abs(other.peak), Math.abs(other.least));
        expect(Math.abs(one.peak - other.peak) / scale, name).toBeLessThan(0.005);
        expect(Math.abs(one.least - other.least) / scale, name).toBeLessThan(0.005);
        if (name === 'all') expect(Math.abs(one.peakX - other.at[0])).toBeLessThan(0.02);
      });
    },
  );

  it('leave a tee the strength that the mesh finds at every place', () => {
    const channels = { number: 3, pitch: 0.6 };
    const loads = { pull: { force: 100 }, side: { force: 5 }, cure: { deltaT: -100 } };
    const cases = [
      { name: 'pulled', factors: { pull: 1, cure: 0.2 } },
      { name: 'pushed', factors: { side: 1, pull: 0.2 } },
    ];
    const nodes = ellipseNodes(0.2, 0.25, [0, 0.9], 0, 256);
    const model = reducedTee(referenceJoint, 0.12, 0.12);
    const edge = createStressModel(model, loads, cases, { channels }).evaluate(nodes, false);
    const fast = createStrengthModel(model, referenceJoint, loads, cases, { edge: 'peak' }).survey(edge);
    const meshed = meshedStrength({ joint: referenceJoint, loads, cases, model }, nodes, { channels });
    fast.forEach(({ name, places }, c) => {
      expect(places.length).toBeGreaterThan(4);
      for (const { place, factor, x } of places) {
        // Far places of low stress: the host's mesh is coarse there, with one channel as with several.
        if (place === 'foot' || place === 'web') continue;
        const other = meshed[c]!.places.find((one) => one.place === place)!;
        expect(Math.abs(factor / other.factor - 1), `${name}, ${place}`).toBeLessThan(place === 'edge' ? 0.003 : 0.02);
        if (place === 'edge') expect(Math.abs(x - other.x)).toBeLessThan(0.05);
      }
    });
  });

  it.each([
    ['of an odd number', 3, 0.5, 0, 0],
    ['of an even number', 4, 0.4, 0.21, 0.3],
  ] as const)('have exact slopes: %s', (_, number, pitch, x, turn) => {
    const count = 64;
    const stress = createStressModel(inSlot(), slotLoads, slotCases, {
      channels: { number, pitch },
      tolerance: 1e-13,
      slopes: exactSlopes,
    });
    const outline = (width: number, lift: number) => ellipseNodes(0.13 + width, 0.1, [x, 0.75 + lift], turn, count);
    const { found, differences } = slopesAndDifferences(stress, outline);
    for (const [p, ofAll] of differences.entries()) {
      const expected =
        number === 4
          ? ofAll
          : // The middle one is solved by halves: its right one, then the left one from its image on.
            Float64Array.of(
              ...ofAll.subarray(0, count / 2),
              ...ofAll.subarray(count / 2, count).reverse(),
              ...ofAll.subarray(count),
            );
      const size = expected.length;
      const scale = Math.max(...expected.map(Math.abs));
      expect(largestDifference(found.subarray(p * size, (p + 1) * size), expected) / scale).toBeLessThan(1e-6);
    }
  });
});
