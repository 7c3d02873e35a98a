import { describe, expect, it } from 'vitest';
import { createStrengthModel, meshedStrength } from '../packages/core/src/strength/index.js';
import { createStressModel, meshedStress } from '../packages/core/src/stress/index.js';
import { slottedLaminate } from './fixtures/laminates.js';
import { reducedOnce, reducedTee } from './fixtures/reduced.js';
import { ellipseNodes, referenceJoint } from './fixtures/tee-reference.js';

// `node benchmarks/agreement-side-by-side.js` does the same to random pairs.

/** Largest difference of peaks over loads and cases, as a share of the largest hoop stress. */
function differenceOf(
  joint: Parameters<typeof meshedStress>[0],
  model: Parameters<typeof createStressModel>[0],
  loads: Parameters<typeof meshedStress>[1],
  outline: (count: number) => ReturnType<typeof ellipseNodes>,
): number {
  const cases = [{ name: 'all', factors: Object.fromEntries(Object.keys(loads).map((name) => [name, 1])) }];
  const stress = createStressModel(model, loads, cases, { channels: { number: 2 } });
  const fast = stress.evaluate(outline(160), false);
  const meshed = meshedStress(joint, loads, cases, outline(256), { channels: { number: 2 }, coarseness: 1.5 });
  const pairs = [
    ...stress.loads.map((name, l) => [fast.loads[l]!, meshed.loads[name]!] as const),
    [fast.cases[0]!, meshed.cases.all!] as const,
  ];
  return Math.max(
    ...pairs.map(
      ([one, other]) => Math.abs(one.peak - other.peak) / Math.max(Math.abs(other.peak), Math.abs(other.least)),
    ),
  );
}

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

describe('two channels', { tags: 'long' }, () => {
  it.each([
    ['near to each other', 0.14, 0.14, 0.2, 0],
    ['apart', 0.12, 0.12, 0.6, 0],
    ['flat and turned', 0.25, 0.1, 0.35, 0.15],
  ] as const)('in a slot have the peaks of the mesh within 0.5 %%, on the right side: %s', (_, a, b, x, turn) => {
    const outline = (count: number) => ellipseNodes(a, b, [x, 0.75], turn, count);
    expect(differenceOf(slot, inSlot(), slotLoads, outline)).toBeLessThan(0.005);
  });

  it('in the filler of a tee have the peaks of the mesh within 0.5 %', () => {
    const loads = { pull: { force: 20 }, side: { force: 3 }, cure: { deltaT: -100 } };
    const outline = (count: number) => ellipseNodes(0.35, 0.2, [0.45, 1], -0.3, count);
    expect(differenceOf(referenceJoint, reducedTee(referenceJoint, 0.12, 0.12), loads, outline)).toBeLessThan(0.005);
  });

  it('leave a tee the strength that the mesh finds at every place, on the side where it finds it', () => {
    const loads = { pull: { force: 100 }, side: { force: 5 }, cure: { deltaT: -100 } };
    const cases = [
      { name: 'pulled', factors: { pull: 1, cure: 0.2 } },
      { name: 'pushed', factors: { side: 1, pull: 0.2 } },
    ];
    const nodes = ellipseNodes(0.3, 0.2, [0.4, 1], -0.3, 256);
    const model = reducedTee(referenceJoint, 0.12, 0.12);
    const edge = createStressModel(model, loads, cases, { channels: { number: 2 } }).evaluate(nodes, false);
    const fast = createStrengthModel(model, referenceJoint, loads, cases, { edge: 'peak' }).survey(edge);
    const meshed = meshedStrength({ joint: referenceJoint, loads, cases, model }, nodes, { channels: { number: 2 } });
    fast.forEach(({ name, places }, c) => {
      expect(places.length).toBeGreaterThan(4);
      for (const { place, factor, x } of places) {
        // Far places of low stress: the host's mesh is coarse there, with one channel as with two.
        if (place === 'foot' || place === 'web') continue;
        const other = meshed[c]!.places.find((one) => one.place === place)!;
        expect(Math.abs(factor / other.factor - 1), `${name}, ${place}`).toBeLessThan(place === 'edge' ? 0.003 : 0.02);
        if (place === 'edge' && name === 'pushed') expect(Math.sign(x)).toBe(Math.sign(other.x));
      }
    });
  });
});
