import { describe, expect, it } from 'vitest';
import { laminatePly, pocketResin } from '../../../../../../../test/fixtures/laminates.js';
import { pocketInBend, slotInSkin } from '../../../../../../../test/fixtures/pocket-tees.js';
import { InputError } from '../../../../errors.js';
import { layupThickness } from '../../../../material/index.js';
import { addTraction, growingCut } from '../../../../mesh/triangle/index.js';
import { cracksOf } from '../../../check-of.js';
import type { LaminateJoint } from '../../../laminate/index.js';
import { solveTee } from '../../check/solve.js';
import type { TeeJoint } from '../../tee.js';
import { type PocketTee, pocketSite } from '../site.js';
import { teeCracks } from './crack.js';
import { pocketTeeTriangles } from './triangles.js';

const crack = { end: 'right', length: 0.5, coarseness: 1 } as const;
const [bend, skin] = [pocketInBend(1), slotInSkin(1)];

describe('cracks out of the pocket of a tee', () => {
  it('lie above the plies that the brief counts from the filler; without a pocket there are none', () => {
    const { pocket: _, ...plain } = bend;
    expect(teeCracks.sites(plain)).toEqual([]);
    expect(teeCracks.sites(bend).map(({ end, below }) => [end, below])).toEqual([
      ['left', 2],
      ['right', 2],
    ]);
    expect(teeCracks.between(bend, { end: 'left', below: 2 })).toBe('90/45');
    // The third of four plies is cut: below it lies the fourth, above it the second.
    expect(teeCracks.sites(skin).map(({ below }) => below)).toEqual([4, 4, 3, 3]);
    expect(teeCracks.between(skin, { end: 'left', below: 4 })).toBe('90/0');
  });

  it('are refused where bend, foot or skin ends beside them', () => {
    expect(() => teeCracks.release(bend, { pull: { force: 1 } }, [], { ...crack, below: 2, length: 2 })).toThrow(
      InputError,
    );
  });

  it('set free in a skin far from the joint what they do in a laminate that a moment bends', {
    tags: 'long',
    timeout: 120_000,
  }, () => {
    const layers = [90, 0, 90, 0, 0, 90, 0, 90].map((angle) => ({ angle, thickness: 0.4, ply: laminatePly }));
    const form = { made: 'drape', below: 5, height: 0.5, halfLength: 1.8, faces: 'both-flat' } as const;
    const tee: TeeJoint = {
      ...skin,
      ...{ skin: layers, skinHalfSpan: 45, pocket: { in: 'skin', at: 30, form, resin: pocketResin } },
    };
    const flat: LaminateJoint = {
      ...{ kind: 'laminate', layup: layers.toReversed(), width: 30, ends: 'free', pocket: form, resin: pocketResin },
    };
    const [own] = teeCracks.release(tee, { moment: { moment: 50 } }, [], { ...crack, below: 4 }).opening;
    const [other] = cracksOf(flat)!.release(flat, { bend: { moment: 50 } }, [], { ...crack, below: 5 }).opening;
    expect(Math.abs(own! / other! - 1)).toBeLessThan(2e-3);
  });

  it('set free in a bend what the whole joint gains as they grow', { tags: 'long', timeout: 120_000 }, () => {
    const joint = bend as PocketTee;
    const force = 10;
    /** Half of what the pull does more with a crack than without, on one mesh. */
    const gain = (length: number) => {
      const step = 0.003;
      const meshed = { end: 'right', side: 'upper', length: length - 4 * step, sides: 8, step, mouth: step } as const;
      const site = { ...pocketSite(joint), reach: 2.6 };
      const mesh = pocketTeeTriangles(joint, site, { pocket: [], filler: [] }, 2, meshed);
      const [whole, cracked] = [mesh, growingCut(mesh, mesh.sides.get('crack')!, 4).short.mesh].map((one) => {
        const { u } = solveTee(one, joint, { pull: { force } }).get('pull')!;
        const load = new Float64Array(u.length);
        const traction = force / (2 * layupThickness(joint.overlaminate));
        addTraction(one, one.sides.get('web-top')!, () => [0, traction], load);
        return load.reduce((sum, f, i) => sum + (f * u[i]!) / 2, 0);
      });
      return cracked! - whole!;
    };
    const released = (length: number) => {
      const { opening, sliding } = teeCracks.release(joint, { pull: { force } }, [], { ...crack, below: 2, length });
      return opening[0]! + sliding[0]!;
    };
    const [from, to] = [0.2, 0.5];
    const simpson = ((to - from) / 6) * (released(from) + 4 * released((from + to) / 2) + released(to));
    expect(Math.abs((gain(to) - gain(from)) / simpson - 1)).toBeLessThan(2e-3);
  });
});
