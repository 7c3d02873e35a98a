import { describe, expect, it } from 'vitest';
import { exactSlopes } from '../packages/core/src/edge/index.js';
import type { LaminateJoint, TeeJoint } from '../packages/core/src/host/index.js';
import type { SideBySide } from '../packages/core/src/outline/index.js';
import { createStrengthModel, meshedStrength } from '../packages/core/src/strength/index.js';
import { createStressModel, meshedStress } from '../packages/core/src/stress/index.js';
import { slottedLaminate } from './fixtures/laminates.js';
import { largestDifference } from './fixtures/numbers.js';
import { pocketInBend, slotInSkin } from './fixtures/pocket-tees.js';
import { reducedOnce } from './fixtures/reduced.js';
import { slopesAndDifferences } from './fixtures/slopes-and-differences.js';
import { ellipseNodes } from './fixtures/tee-reference.js';

const room = { wall: 0.05, edgeRadius: 0.06, largest: { width: 1.4, height: 0.4 } };
const onTee = { pull: { force: 40 }, side: { force: 5 }, moment: { moment: 50 }, cure: { deltaT: -60 } };
const onLaminate = {
  stretch: { strain: 0.001, force: 0 },
  bend: { moment: 30 },
  shear: { force: 10 },
  flatwise: { stress: 5 },
  cure: { deltaT: -60 },
};

/** Plies run level over the preforms, and as far as before beyond the outermost. */
const levelled = <Lens extends { readonly halfLength: number }>(lens: Lens, flat: number) => ({
  ...lens,
  flat,
  halfLength: lens.halfLength + flat,
});

const bend = pocketInBend(1);
const bendOf = (flat: number): TeeJoint => {
  const form = bend.pocket!.form;
  if (form.made === 'cut') throw new Error('expected a lens');
  return { ...bend, pocket: { ...bend.pocket!, form: levelled(form, flat) } };
};
const lens: LaminateJoint = {
  ...slottedLaminate(1),
  pocket: levelled({ made: 'drape' as const, below: 3, height: 0.5, halfLength: 2, faces: 'both-flat' as const }, 0.4),
};

describe('channels in one pocket', { tags: 'long', timeout: 180_000 }, () => {
  it.each([
    ['two in the bend of a tee', bendOf(0.3), onTee, { number: 2 }, ellipseNodes(0.15, 0.13, [0.3, 0.51], 0.3, 256)],
    [
      'three in a slot of its skin',
      slotInSkin(1),
      onTee,
      { number: 3, pitch: 0.4 },
      ellipseNodes(0.13, 0.15, [0, 0.9], 0, 256),
    ],
    [
      'two under the plies of a flat laminate',
      lens,
      onLaminate,
      { number: 2 },
      ellipseNodes(0.18, 0.16, [0.4, 0.75], 0.4, 256),
    ],
  ] as const)('%s have the peaks of the mesh within half a percent', (_, joint, loads, channels: SideBySide, nodes) => {
    const model = reducedOnce(joint, room);
    const fast = createStressModel(model, loads, [], { channels }).evaluate(nodes, false);
    const meshed = meshedStress(joint, loads, [], nodes, { channels, coarseness: joint.kind === 'tee' ? 2 : 1.25 });
    Object.entries(meshed.loads).forEach(([name, other], l) => {
      const scale = Math.max(Math.abs(other.peak), Math.abs(other.least));
      expect(Math.abs(fast.loads[l]!.peak - other.peak) / scale, name).toBeLessThan(0.005);
      expect(Math.abs(fast.loads[l]!.least - other.least) / scale, name).toBeLessThan(0.005);
      expect(fast.hoop[l]!.length, 'channels that are told').toBeGreaterThanOrEqual(256);
    });
  });

  // A slot: between plies that are 3 micrometres apart, at the tips of a lens in a bend, host and mesh differ in where they put a point.
  it('leave a bend the strength that the mesh finds around both', () => {
    const joint: TeeJoint = {
      ...bend,
      pocket: { ...bend.pocket!, form: { made: 'cut', first: 1, count: 2, halfWidth: 0.9 } },
    };
    const channels = { number: 2 };
    const cases = [
      { name: 'pulled', factors: { pull: 1, cure: 1 } },
      { name: 'pushed', factors: { side: 1, cure: 1 } },
    ];
    const nodes = ellipseNodes(0.15, 0.13, [0.3, 0.51], 0.3, 256);
    const model = reducedOnce(joint, room);
    const edge = createStressModel(model, onTee, cases, { channels }).evaluate(nodes, false);
    const fast = createStrengthModel(model, joint, onTee, cases, { edge: 'peak' }).survey(edge);
    const meshed = meshedStrength({ joint, loads: onTee, cases, model }, nodes, { channels, coarseness: 2 });
    fast.forEach(({ name, places }, c) => {
      const least = Math.min(...places.map(({ factor }) => factor));
      for (const { place, factor } of places.filter((one) => one.factor < 2 * least)) {
        const other = meshed[c]!.places.find((one) => one.place === place)!;
        expect(Math.abs(factor / other.factor - 1), `${name}, ${place}`).toBeLessThan(place === 'edge' ? 0.005 : 0.02);
      }
    });
  });

  it.each([
    ['two in a bend', bendOf(0.3), { number: 2 }, 0.3, 0.51],
    ['three in a skin', slotInSkin(1), { number: 3, pitch: 0.4 }, 0, 0.9],
    ['four in a skin', slotInSkin(1), { number: 4, pitch: 0.35 }, 0.18, 0.9],
  ] as const)('have exact slopes at every edge: %s', (_, joint, channels, x, y) => {
    const count = 64;
    const cases = [{ name: 'all', factors: { pull: 1, side: 1, moment: 1, cure: 1 } }];
    const stress = createStressModel(reducedOnce(joint, room), onTee, cases, {
      channels,
      tolerance: 1e-13,
      slopes: exactSlopes,
    });
    const outline = (width: number, lift: number) =>
      ellipseNodes(0.12 + width, 0.1, [x, y + lift], x === 0 ? 0 : 0.3, count);
    const { found, differences } = slopesAndDifferences(stress, outline);
    for (const [p, expected] of differences.entries()) {
      expect(expected).toHaveLength(channels.number * count);
      const own = found.subarray(p * expected.length, (p + 1) * expected.length);
      expect(largestDifference(own, expected) / Math.max(...expected.map(Math.abs))).toBeLessThan(1e-6);
    }
  });

  it('that are copies of one outline are those that are given one by one, in any order', () => {
    const model = reducedOnce(slotInSkin(1), room);
    const channels = { number: 2 };
    const stress = createStressModel(model, onTee, [], { channels });
    const right = ellipseNodes(0.15, 0.1, [0.3, 0.9], 0.3, 96);
    const left = ellipseNodes(0.15, 0.1, [-0.3, 0.9], -0.3, 96);
    const peaks = stress.evaluate(right, false).loads.map(({ peak }) => peak);
    stress.evaluateEach([left, right]).loads.forEach(({ peak }, l) => {
      expect(peak).toBeCloseTo(peaks[l]!, 8);
    });
    // The one does not write into the nodes of the other.
    expect(stress.evaluate(right, false).loads.map(({ peak }) => peak)).toEqual(peaks);
    expect(left.x[0]).toBeLessThan(0);
  });
});
