import { describe, expect, it } from 'vitest';
import { discInSheet, meshText } from '../../../../../test/fixtures/mesh-text.js';
import { discJoint, meshOf } from '../../../../../test/fixtures/section-joints.js';
import { ellipseNodes, referencePly } from '../../../../../test/fixtures/tee-reference.js';
import { inPlaneConstants } from '../../material/index.js';
import { createStrengthModel, meshedStrength } from '../../strength/index.js';
import { createStressModel } from '../../stress/index.js';
import { hostOf, type SectionJoint } from '../index.js';

const wish = { wall: 0.19, edgeRadius: 0.1 };

describe('the border of a filler that is meshed elsewhere', () => {
  // A disc in a sheet under the same tension S on all sides (Lamé, radial stress and displacement continuous): the stress in the disc is
  // q = S (kappa2 + 1)/2 / (1 + (kappa1 - 1)/2 G2/G1) throughout.
  it('bears what a disc in a sheet bears in closed form', { tags: 'long', timeout: 120_000 }, () => {
    const sheet = { ply: referencePly, angle: 90, tangent: 0 };
    const joint: SectionJoint = {
      ...discJoint(),
      mesh: meshOf(meshText(discInSheet({ radius: 2, wrap: 0.5, half: 60, around: 48, rows: 14 }))),
      surfaces: { ...discJoint().surfaces, wrap: sheet, sheet },
      supports: [],
      loads: {
        round: [
          { curve: 'left', force: [-120, 0] },
          { curve: 'right', force: [120, 0] },
          { curve: 'bottom', force: [0, -120] },
          { curve: 'top', force: [0, 120] },
        ],
      },
    };
    const { places, loads } = hostOf(joint).reduce(wish);
    const { atPlaces } = loads.find(({ name }) => name === 'round')!;
    const [inner, outer] = [joint.surfaces.filler!.ply, referencePly].map(inPlaneConstants);
    const q = (outer!.kappa + 1) / 2 / (1 + (((inner!.kappa - 1) / 2) * outer!.G) / inner!.G);
    const border = places.points.flatMap(({ place }, p) => (place === 'filler-interface' ? [p] : []));
    expect(border.length).toBeGreaterThan(40);
    for (const p of border) {
      const [n, t, nt] = atPlaces.subarray(3 * p, 3 * p + 3);
      expect(Math.abs(n! / q - 1)).toBeLessThan(0.003);
      expect(Math.abs(t! / q - 1)).toBeLessThan(0.003);
      expect(Math.abs(nt! / q)).toBeLessThan(0.003);
    }
  });

  it('fails where the mesh says, at the same load', { tags: 'long', timeout: 120_000 }, () => {
    const joint = discJoint();
    const loads = { cure: { deltaT: -60 }, lift: { force: 100 }, spread: { force: 50 } };
    const cases = [
      { name: 'lift', factors: { lift: 1 } },
      { name: 'spread', factors: { spread: 1, cure: 1 } },
    ];
    const model = hostOf(joint).reduce(wish);
    const stress = createStressModel(model, loads, cases);
    const outline = (count: number) => ellipseNodes(0.7, 0.35, [0.5, -0.3], 0.4, count);
    const edge = stress.evaluate(outline(128), false);
    const found = createStrengthModel(model, joint, loads, cases, { edge: 'peak' }).survey(edge);
    const meshed = meshedStrength({ joint, loads, cases, model }, outline(256));
    meshed.forEach(({ name, places }, k) => {
      const of = (all: typeof places) => all.find(({ place }) => place === 'filler-interface')!;
      const [fast, slow] = [of(found[k]!.places), of(places)];
      expect(Math.abs(fast.factor / slow.factor - 1), name).toBeLessThan(0.01);
    });
  });
});
