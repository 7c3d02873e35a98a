import { describe, expect, it } from 'vitest';
import { hostOf, type LaminateJoint, type Loads } from '../packages/core/src/host/index.js';
import { createStressModel, meshedStress } from '../packages/core/src/stress/index.js';
import { drapedLaminate, slottedLaminate } from './fixtures/laminates.js';
import { reducedOnce } from './fixtures/reduced.js';
import { ellipseNodes } from './fixtures/tee-reference.js';

/** A cell, hardly wider than its pocket. */
const slots: LaminateJoint = { ...slottedLaminate(1), width: 1.9, ends: 'simple', row: true };
const lenses: LaminateJoint = { ...drapedLaminate(1), width: 4, ends: 'clamped', row: true };
const loads: Loads = {
  bend: { moment: 30 },
  flatwise: { stress: 5 },
  cure: { deltaT: -60 },
  pressure: { pressure: 0.5 },
};
const strained = { stretch: { strain: 0.001, force: 0 } };
const pulled = { stretch: { strain: 0, force: 100 } };

type Nodes = ReturnType<typeof ellipseNodes>;
const room = { wall: 0.06, edgeRadius: 0.08 };
const slotsModel = () => reducedOnce(slots, room);

/** Largest difference of peaks over loads and their sum, as a share of the largest hoop stress. */
function differenceOf(joint: LaminateJoint, all: Loads, outline: (count: number) => Nodes): number {
  const cases = [{ name: 'all', factors: Object.fromEntries(Object.keys(all).map((name) => [name, 1])) }];
  const model = joint === slots ? slotsModel() : hostOf(joint).reduce(room);
  const fast = createStressModel(model, all, cases).evaluate(outline(160), false);
  const meshed = meshedStress(joint, all, cases, outline(256), { coarseness: 1.5 });
  return Math.max(
    ...[...fast.loads, ...fast.cases].map(({ peak }, i) => {
      const other = [...Object.values(meshed.loads), meshed.cases.all!][i]!;
      return Math.abs(peak - other.peak) / Math.max(Math.abs(other.peak), Math.abs(other.least));
    }),
  );
}

describe('an endless row', { tags: 'long' }, () => {
  it.each([
    ['slots, strained', slots, { ...strained, ...loads }, 0.4, 0.15, 0, 0],
    ['slots, pulled, the channel off the middle and turned', slots, { ...pulled, ...loads }, 0.25, 0.1, 0.35, 0.15],
    ['lenses, strained', lenses, { ...strained, ...loads }, 0.3, 0.16, 0, 0],
  ] as const)('has the peaks of the mesh within 0.5 %%: %s', (_, joint, all, a, b, x, turn) => {
    const y = hostOf(joint).largestCircle!.at[1];
    expect(differenceOf(joint, all, (count) => ellipseNodes(a, b, [x, y], turn, count))).toBeLessThan(0.005);
  });

  it('far apart bears what one channel does in a wide laminate', () => {
    const wide = { ...slots, width: 12 };
    const { row: _alone, ...alone } = wide;
    const all = { ...pulled, ...loads };
    const peaks = [wide, alone].map((joint) =>
      createStressModel(hostOf(joint).reduce(room), all, [])
        .evaluate(ellipseNodes(0.3, 0.15, [0, 0.75], 0, 128), false)
        .loads.map(({ peak }) => peak),
    );
    peaks[0]!.forEach((peak, l) => {
      expect(Math.abs(peak / peaks[1]![l]! - 1)).toBeLessThan(0.002);
    });
  });

  it('is strained or pulled, not both at once', () => {
    const both = { stretch: { strain: 0.001, force: 10 } };
    expect(() => createStressModel(slotsModel(), both, [])).toThrow('the host is held in another way under each');
  });
});
