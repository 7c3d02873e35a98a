import { describe, expect, it } from 'vitest';
import { reducedTee } from '../../../../../test/fixtures/reduced.js';
import {
  ellipseNodes,
  reference,
  referenceJoint,
  referenceLoads,
  referenceNodes,
  referencePly,
} from '../../../../../test/fixtures/tee-reference.js';
import { responseBlocks } from '../../edge/index.js';
import { InputError } from '../../errors.js';
import { layupFromPlies, type Ply } from '../../material/index.js';
import { type CurveNodes, createCurveNodes } from '../../outline/index.js';
import { createStressModel, meshedStress, type StressModel } from '../../stress/index.js';
import { edgeOnly } from '../condensed/index.js';
import { teeFamilies } from './inset.js';
import { condenseOnContour, reduceTee, solveOnContour, usualFineness } from './reduce.js';
import type { TeeJoint } from './tee.js';

const everyLoad = {
  ...referenceLoads,
  side: { force: 10 },
  moment: { moment: 50 },
  pressure: { pressure: 5 },
} as const;

/** The stresses at places take most of a reduction. */
const edgeModel = (joint: TeeJoint, wall: number) =>
  edgeOnly('tee', solveOnContour(condenseOnContour(joint, wall, wall, usualFineness), usualFineness.degree));

const model = reducedTee(referenceJoint, 0.12, 0.12);
const stress = createStressModel(model, everyLoad, []);

/** Ellipses that are hard on the model: along the base, close to an arc, tilted between both. */
const slot = ellipseNodes(1.5, 0.3, [0, 0.45], 0, 192);
const nearArc = ellipseNodes(0.4, 0.4, [1.2, 0.6], 0, 128);
const tilted = ellipseNodes(0.7, 0.3, [0.3, 1.2], 0.5, 128);
const hard = [slot, nearArc, tilted];

function peaks(of: StressModel, nodes: CurveNodes): number[] {
  return of.evaluate(nodes, false).loads.map(({ peak }) => peak);
}

describe('reduceTee against an independent solution of a whole joint', () => {
  const [pull, cure] = [stress.loads.indexOf('pull'), stress.loads.indexOf('cure')];

  it.each(reference.outlines.map((outline) => [outline.name, outline] as const))(
    '%s: peaks, least stress and places',
    (_, outline) => {
      const smooth = outline.shape.kind === 'ellipse';
      const { loads } = stress.evaluate(referenceNodes(outline, smooth ? 96 : 128), false);
      for (const [found, expected] of [
        [loads[pull]!, outline.pull],
        [loads[cure]!, outline.cure],
      ] as const) {
        expect(Math.abs(found.peak / expected.peak - 1)).toBeLessThan(smooth ? 0.001 : 0.005);
        expect(Math.abs(found.least - expected.least)).toBeLessThan(0.002 * expected.peak);
        // A mirror-symmetric joint has two such places, or one on its axis; flat peaks are found to 0.02 mm.
        expect(Math.abs(Math.abs(found.peakX) - Math.abs(expected.at[0]))).toBeLessThan(0.02);
        expect(Math.abs(found.peakY - expected.at[1])).toBeLessThan(0.02);
      }
    },
  );

  it.each(reference.outlines.map((outline) => [outline.name, outline] as const))(
    '%s: hoop stress all around',
    (_, outline) => {
      const nodes = referenceNodes(outline, outline.shape.kind === 'ellipse' ? 512 : 200);
      const { hoop } = stress.evaluate(nodes, false);
      let worst = 0;
      for (const [x, y, byPull, byCure] of outline.hoop) {
        const distance = (j: number) => Math.hypot(nodes.x[j]! - x, nodes.y[j]! - y);
        let near = 0;
        for (let j = 1; j < nodes.count; j++) if (distance(j) < distance(near)) near = j;
        worst = Math.max(
          worst,
          Math.abs(hoop[pull]![near]! - byPull) / outline.pull.peak,
          Math.abs(hoop[cure]![near]! - byCure) / outline.cure.peak,
        );
      }
      // The reference gives every place to 1e-5 mm and the nearest node lies within 0.006 mm.
      expect(worst).toBeLessThan(0.02);
    },
  );
});

describe('reduceTee', () => {
  it('agrees with a direct mesh for loads that the reference does not have', { tags: 'long' }, () => {
    for (const [support, outline] of [
      ['clamped', nearArc],
      ['simple', tilted],
    ] as const) {
      const joint = { ...referenceJoint, support };
      const loads = {
        pull: everyLoad.pull,
        side: everyLoad.side,
        pressure: everyLoad.pressure,
        ...(support === 'simple' ? { moment: everyLoad.moment } : {}),
      };
      const fast = createStressModel(edgeModel(joint, 0.12), loads, []);
      const found = fast.evaluate(outline, false).loads;
      const meshed = meshedStress(joint, loads, [], outline, { coarseness: 2 }).loads;
      fast.loads.forEach((name, l) => {
        const { peak, least, error } = meshed[name]!;
        const scale = Math.max(peak, -least);
        expect(Math.abs(found[l]!.peak - peak)).toBeLessThan((0.003 + error) * scale);
        expect(Math.abs(found[l]!.least - least)).toBeLessThan((0.003 + error) * scale);
      });
    }
  });

  // Sources nearer to the contour than its edges resolve gave 2 to 7 % at a wall of 0.08 mm, whatever the degree.
  it.each([0.08, 0.16])(
    'does not depend on where its contour lies: wall and edge radius %f instead of 0.12 mm',
    { tags: 'long' },
    (wall) => {
      const other = createStressModel(edgeModel(referenceJoint, wall), everyLoad, []);
      for (const outline of hard)
        peaks(stress, outline).forEach((peak, l) => {
          expect(Math.abs(peaks(other, outline)[l]! / peak - 1)).toBeLessThan(0.0025);
        });
    },
  );

  it('converges with the degree of its polynomials', { tags: 'long' }, () => {
    const condensed = condenseOnContour(referenceJoint, 0.12, 0.12, usualFineness);
    const at = (degree: number) =>
      createStressModel(edgeOnly('tee', solveOnContour(condensed, degree)), referenceLoads, []);
    const finest = peaks(at(36), tilted);
    const errors = [12, 16, 20, 24, 28].map((degree) =>
      Math.max(...peaks(at(degree), tilted).map((peak, l) => Math.abs(peak / finest[l]! - 1))),
    );
    // Geometric: by a third at least with every four degrees.
    for (let k = 1; k < errors.length; k++) expect(errors[k]! / errors[k - 1]!).toBeLessThan(0.7);
    expect(errors[4]!).toBeLessThan(0.0015);
  });

  it('answers with symmetric matrices that leave the rotation of the channel alone', () => {
    const half = 2 * model.basis.degree;
    for (const response of model.responses)
      for (const matrix of responseBlocks(response)) {
        expect(matrix).toHaveLength(half * half);
        for (let i = 0; i < half; i++)
          for (let j = 0; j < i; j++) expect(matrix[i * half + j]).toBe(matrix[j * half + i]);
      }
    const [, antisymmetric] = responseBlocks(model.responses[0]!);
    for (let l = 0; l < half; l++) expect(Math.abs(antisymmetric![l]!)).toBe(0);
  });

  it('knows which loads are mirror-symmetric, and solves them in half the unknowns', () => {
    expect(model.loads.filter(({ symmetric }) => !symmetric).map(({ name }) => name)).toEqual(['side']);
    const symmetric = createStressModel(
      model,
      { pull: everyLoad.pull, cure: everyLoad.cure, pressure: everyLoad.pressure },
      [],
    );
    const whole = symmetric.evaluate(slot, false).hoop.map((hoop) => hoop.slice());
    symmetric.evaluate(slot, true).hoop.forEach((hoop, l) => {
      const scale = Math.max(...whole[l]!.map(Math.abs));
      hoop.forEach((value, j) => {
        expect(Math.abs(value - whole[l]![j]!)).toBeLessThan(1e-9 * scale);
      });
    });
  });

  it('shows no turn of the filler as stress, however few nodes', () => {
    // A thin skin turns its filler hundreds of times as much as it strains it.
    const thin = { ...referenceJoint, skin: [{ ...referenceJoint.skin[0]!, thickness: 0.5 }] };
    const under = createStressModel(edgeModel(thin, 0.12), { side: everyLoad.side }, []);
    const room = { mirror: true, xMin: -5, xMax: 5, yMin: 0.12, yMax: 5, edgeRadius: 0.12 };
    const inset = teeFamilies(5).inset!(room);
    const sidePeak = (count: number) => {
      const nodes = createCurveNodes(count);
      inset.place(
        inset.parameters.map(({ lower }) => lower),
        nodes,
      );
      return under.evaluate(nodes, false).loads[0]!.peak;
    };
    expect(Math.abs(sidePeak(160) / sidePeak(400) - 1)).toBeLessThan(0.01);
  });

  it('turns the side load round with its mirror image', () => {
    const side = stress.loads.indexOf('side');
    const image = ellipseNodes(0.7, 0.3, [-0.3, 1.2], -0.5, 128);
    const here = { ...stress.evaluate(tilted, false).loads[side]! };
    const there = stress.evaluate(image, false).loads[side]!;
    expect(there.peak).toBeCloseTo(-here.least, 8);
    expect(there.least).toBeCloseTo(-here.peak, 8);
    const { hoop } = stress.evaluate(slot, false);
    const scale = Math.max(...hoop[side]!);
    hoop[side]!.forEach((value, j) => {
      expect(Math.abs(value + hoop[side]![191 - j]!)).toBeLessThan(1e-9 * scale);
    });
  });

  it('leaves a joint of one material free of stress when it cools', () => {
    const resin: Ply = {
      ...referencePly,
      E1: 3500,
      E2: 3500,
      nu12: 0.35,
      nu23: 0.35,
      G12: 3500 / 2.7,
      alpha1: 60e-6,
      alpha2: 60e-6,
    };
    const joint: TeeJoint = {
      ...referenceJoint,
      overlaminate: layupFromPlies([0], 2, resin),
      skin: layupFromPlies([0], 3, resin),
      filler: resin,
    };
    const { loads, basis } = edgeModel(joint, 0.12);
    const { undisturbed } = loads.find(({ name }) => name === 'cure')!;
    // Of what full restraint would give; high powers are worth little and sharply determined by nothing.
    const scale = 3500 * 60e-6;
    expect(basis.degree).toBe(28);
    for (let k = 0; k < 8; k++) expect(Math.abs(undisturbed[k]!)).toBeLessThan(1e-6 * scale);
  });

  it('refuses walls that leave no room, and impossible joints', () => {
    expect(() => reduceTee(referenceJoint, 0.9, 0.4)).toThrow(InputError);
    expect(() => reduceTee(referenceJoint, Number.NaN, 0.1)).toThrow(/channel.wall/);
    expect(() => reduceTee({ ...referenceJoint, bendRadius: 1.9 }, 0.12, 0.12)).toThrow(/host.bendRadius/);
  });
});
