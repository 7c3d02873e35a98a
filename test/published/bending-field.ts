import { halfSize, powerRecurrence } from '../../packages/core/src/edge/index.js';
import { type ReducedModel, reducePlate } from '../../packages/core/src/host/index.js';
import { createStressModel } from '../../packages/core/src/stress/index.js';
import { ellipseNodes, referencePly } from '../fixtures/tee-reference.js';
import { once, type Publication } from './check.js';

/** Hoop stress by C a around a circle of radius a in the bending field s_x = C y, by the fast model. */
const hoop = once(() => {
  const degree = 2;
  const undisturbed = new Float64Array(2 * halfSize(degree));
  // phi = -i C z^2 / 8, psi = i C z^2 / 8: imaginary coefficients of even powers are symmetric.
  undisturbed[2] = -1 / 8;
  undisturbed[3] = 1 / 8;
  const plate = reducePlate({ kind: 'plate', material: referencePly });
  const model: ReducedModel = {
    ...plate,
    basis: { degree, centreX: 0, centreY: 0, length: 1, recurrence: powerRecurrence(degree) },
    loads: [{ ...plate.loads[0]!, name: 'bending', size: 'moment', undisturbed, offset: 0, symmetric: true }],
  };
  const stress = createStressModel(model, { bending: { moment: 1 } }, []);
  return stress.evaluate(ellipseNodes(1, 1, [0, 0], 0, 64), false).loads[0]!;
});

export const bendingField: Publication = {
  title: 'Circular channel in a beam under bending, far from its faces',
  source:
    'Timoshenko & Goodier, Theory of Elasticity: hoop stress C a (sin t - sin 3t) around a hole of radius a in s_x = C y; formula from memory',
  checks: [
    { quantity: 'largest, at the top', published: 2, tolerance: 1e-6, compute: () => hoop().peak },
    { quantity: 'least, at the bottom', published: -2, tolerance: 1e-6, compute: () => hoop().least },
  ],
};
