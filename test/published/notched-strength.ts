import { type PlateHost, reducePlate } from '../../packages/core/src/host/index.js';
import { createStrengthModel, type StrengthOptions } from '../../packages/core/src/strength/index.js';
import { createStressModel } from '../../packages/core/src/stress/index.js';
import { ellipseNodes, referencePly } from '../fixtures/tee-reference.js';
import type { Check, Publication } from './check.js';

/** Share of its strength that a plate keeps with a circle of radius 1 in it, under tension along x. */
function retained(edge: StrengthOptions['edge']): number {
  const plate: PlateHost = { kind: 'plate', material: referencePly };
  const model = reducePlate(plate);
  const loads = { farField: { sx: 30, sy: 0, txy: 0 } };
  const cases = [{ name: 'pulled', factors: { farField: 1 } }];
  const stress = createStressModel(model, loads, cases).evaluate(ellipseNodes(1, 1, [0, 0], 0, 128), false);
  return createStrengthModel(model, plate, loads, cases, { edge }).evaluate(stress).retained;
}

const atDistance = (distance: number): Check[] => {
  const xi = 1 / (1 + distance);
  return [
    {
      quantity: `strength: retained by point stress at ${distance}`,
      published: 2 / (2 + xi ** 2 + 3 * xi ** 4),
      compute: () => retained({ distance }),
      tolerance: 1e-5,
    },
    {
      quantity: `strength: retained by average stress over ${distance}`,
      published: (2 * (1 - xi)) / (2 - xi ** 2 - xi ** 4),
      compute: () => retained({ distance, average: true }),
      tolerance: 0.0005,
    },
  ];
};

export const notchedStrength: Publication = {
  title: 'Strength of a plate with a circular hole of radius 1, as a share of that without',
  source:
    'Kirsch (1898) for the peak; Whitney & Nuismer, J. Compos. Mater. 8 (1974) 253-265, isotropic plate, formulas from memory: with xi = ' +
    'R/(R + d), point stress 2/(2 + xi^2 + 3 xi^4), average stress 2 (1 - xi)/(2 - xi^2 - xi^4)',
  checks: [
    { quantity: 'strength: retained by the peak', published: 1 / 3, compute: () => retained('peak'), tolerance: 1e-9 },
    ...atDistance(0.1),
    ...atDistance(0.5),
  ],
};
