import { describe, expect, it } from 'vitest';
import { ellipseNodes, referenceJoint } from '../../../../../test/fixtures/tee-reference.js';
import { readBrief, starterBrief } from '../../brief/index.js';
import { IndefiniteError } from '../../linear/index.js';
import type { Ply } from '../../material/index.js';
import { createStressModel, meshedStress } from '../../stress/index.js';
import { edgeOnly } from '../condensed/index.js';
import type { ReducedModel } from '../reduced-model.js';
import { proveTee } from './prove.js';
import { condenseOnContour, solveOnContour, usualFineness } from './reduce.js';
import type { TeeJoint } from './tee.js';

/** Much stiffer than the plies beside it. */
const stiff: Ply = {
  ...referenceJoint.filler,
  E1: 70000,
  E2: 70000,
  nu12: 0.3,
  nu23: 0.3,
  G12: 26923,
  alpha1: 1e-5,
  alpha2: 1e-5,
};
const joint: TeeJoint = {
  ...referenceJoint,
  filler: stiff,
  overlaminate: [{ thickness: 2, angle: 90, ply: referenceJoint.filler }],
  skin: [{ thickness: 3, angle: 90, ply: referenceJoint.filler }],
};
const loads = { pull: { force: 100 } };

describe('proveTee', () => {
  it('condenses an ordinary joint as usual', { tags: 'long' }, () => {
    const told: number[] = [];
    const onProgress = (share: number) => void told.push(share);
    const { basis, accuracy, finer } = proveTee(referenceJoint, { wall: 0.12, edgeRadius: 0.12, onProgress });
    expect(told.length).toBeGreaterThanOrEqual(3);
    expect(told.every((share, i) => share > (told[i - 1] ?? 0) && share < 1)).toBe(true);
    expect(basis.degree).toBe(usualFineness.degree);
    expect(accuracy).toBeLessThan(0.005);
    expect(finer!.basis.degree).toBeGreaterThan(basis.degree);
  });

  it('condenses a joint with a stiff filler more finely, so that a channel at its wall agrees with the mesh', {
    tags: 'long',
  }, () => {
    const channel = ellipseNodes(0.625, 0.625, [0, 0.745], 0, 256);
    const peakOf = (model: ReducedModel) =>
      createStressModel(model, loads, []).evaluate(channel, true, 'loads').loads[0]!.peak;
    const meshed = meshedStress(joint, loads, [], channel).loads.pull!.peak;
    const proved = proveTee(joint, { wall: 0.12, edgeRadius: 0.12 });
    expect(proved.basis.degree).toBeGreaterThan(usualFineness.degree);
    expect(proved.accuracy).toBeLessThan(0.005);
    const usual = solveOnContour(condenseOnContour(joint, 0.12, 0.12, usualFineness), usualFineness.degree);
    expect(Math.abs(peakOf(edgeOnly('tee', usual)) / meshed - 1)).toBeGreaterThan(0.01);
    expect(Math.abs(peakOf(proved) / meshed - 1)).toBeLessThan(0.005);
  });

  it('goes on where a wall is so thin that the usual contour does not tell the highest fields', {
    tags: 'long',
  }, async () => {
    const starter = (await readBrief(starterBrief)).joint as TeeJoint;
    const [wall, edgeRadius] = [0.02, 0.03];
    expect(() => solveOnContour(condenseOnContour(starter, wall, edgeRadius, usualFineness))).toThrow(IndefiniteError);
    const { accuracy, basis, finer } = proveTee(starter, { wall, edgeRadius });
    expect(accuracy).toBeLessThan(0.02);
    expect(finer!.basis.degree).toBeGreaterThan(basis.degree);
  });
});
