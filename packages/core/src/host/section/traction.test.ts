import { expect, it } from 'vitest';
import { discJoint } from '../../../../../test/fixtures/section-joints.js';
import { meshedPlaces } from '../../stress/index.js';
import { hostOf, meshJoint, type SectionJoint } from '../index.js';

// Navier: moments at both ends of a block of height h bend it by sx = 12 M y / h^3, and by no other stress.
it('bends a block by moments on its ends', { tags: 'long', timeout: 120_000 }, () => {
  const given = discJoint();
  const filler = given.surfaces.filler!;
  // As stiff, but warmed otherwise, so that there is a cure to model.
  const around = { ...filler, ply: { ...filler.ply, alpha1: 0, alpha2: 0 } };
  const joint: SectionJoint = {
    ...given,
    surfaces: { filler, wrap: around, sheet: around },
    supports: [],
    loads: {
      bend: [
        { curve: 'left', force: [0, 0], moment: 1 },
        { curve: 'right', force: [0, 0], moment: -1 },
      ],
    },
  };
  const { places, loads } = hostOf(joint).reduce({ wall: 0.19, edgeRadius: 0.1 });
  const height = 16;
  /** Largest in the block, and in the filler of radius 2. */
  const most = (place: string) => (12 * (place === 'surface' ? height / 2 : 2)) / height ** 3;
  const meshed = meshedPlaces(joint, meshJoint(joint, { bend: { force: 1 } }, [], 2), places.points).bend!;
  const { atPlaces } = loads.find(({ name }) => name === 'bend')!;
  places.points.forEach(({ place, y, normalAngle }, p) => {
    const [c, s] = [Math.cos(normalAngle), Math.sin(normalAngle)];
    const sx = (12 * y) / height ** 3;
    for (const [i, stress] of [c * c * sx, s * s * sx, s * c * sx].entries()) {
      expect(Math.abs(atPlaces[3 * p + i]! - stress)).toBeLessThan(0.005 * most(place));
      expect(Math.abs(meshed[3 * p + i]! - stress)).toBeLessThan(0.005 * most(place));
    }
  });
});
