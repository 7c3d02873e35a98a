import { describe, expect, it } from 'vitest';
import { drapedLaminate, slottedLaminate } from '../../../../../../test/fixtures/laminates.js';
import { InputError } from '../../../errors.js';
import type { LaminateJoint } from '../laminate.js';
import { laminateCracks } from './crack.js';

const [slot, lens] = [slottedLaminate(1), drapedLaminate(1)];
const loads = { stretch: { strain: 0, force: 10 }, flatwise: { stress: 1 }, cure: { deltaT: -100 } };
const released = (joint: LaminateJoint, site: { end: 'left' | 'right'; below: number }, coarseness = 1.2) =>
  laminateCracks.release(joint, loads, [], { ...site, length: 0.3, coarseness });

describe('cracks out of the pocket of a laminate', () => {
  it('run along the interface of a lens, and below and above a slot that lies inside', () => {
    const below = (joint: LaminateJoint) => [...new Set(laminateCracks.sites(joint).map((site) => site.below))];
    expect(laminateCracks.sites(lens)).toHaveLength(2);
    expect(below(slot)).toEqual([2, 4]);
    expect(below({ ...slot, pocket: { made: 'cut', first: 0, count: 2, halfWidth: 0.8 } })).toEqual([2]);
  });

  it('set free the same to both sides of a joint that is its own mirror image', { tags: 'long' }, () => {
    const [left, right] = (['left', 'right'] as const).map((end) => released(slot, { end, below: 4 }));
    left!.opening.forEach((value, k) => {
      expect(Math.abs(value - right!.opening[k]!)).toBeLessThan(2e-3 * Math.max(...right!.opening));
    });
  });

  it('hardly change with the mesh', { tags: 'long' }, () => {
    const site = { end: 'right', below: 4 } as const;
    const [fine, coarse] = [1, Math.SQRT2].map((coarseness) => released(slot, site, coarseness));
    for (let l = 0; l < 3; l++) {
      const both = (one: typeof fine) => one!.opening[4 * l]! + one!.sliding[4 * l]!;
      expect(Math.abs(both(coarse) / both(fine) - 1)).toBeLessThan(5e-3);
    }
  });

  it('are refused where the laminate ends beside them', () => {
    expect(() =>
      laminateCracks.release(slot, loads, [], { end: 'left', below: 2, length: slot.width, coarseness: 1 }),
    ).toThrow(InputError);
  });
});
