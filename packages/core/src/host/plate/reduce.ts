import { powerRecurrence } from '../../edge/index.js';
import { inPlaneConstants } from '../../material/index.js';
import { plainMaps } from '../place-maps.js';
import type { ReducedLoad, ReducedModel } from '../reduced-model.js';
import type { PlateHost } from './plate.js';

/**
 * The reduced model of an infinite sheet: the far field is the regular field, and nothing answers the channel.
 * `sx + sy = 4 Re phi'`, `syy - sxx + 2 i sxy = 2 psi'` (Muskhelishvili): `phi = (sx + sy)/4 z`,
 * `psi = ((sy - sx)/2 + i txy) z`.
 */
export function reducePlate(host: PlateHost): ReducedModel {
  const { G, kappa } = inPlaneConstants(host.material);
  // Coefficients: [Re phi, Re psi | Im phi, Im psi].
  const load = (
    name: string,
    size: string,
    coefficients: readonly number[],
    atPlaces: readonly number[],
    offset = 0,
  ): ReducedLoad => ({
    name,
    size,
    undisturbed: Float64Array.from(coefficients),
    atPlaces: Float64Array.from(atPlaces),
    response: -1,
    offset,
    symmetric: size !== 'txy',
  });
  const basis = { degree: 1, centreX: 0, centreY: 0, length: 1, recurrence: powerRecurrence(1) };
  return {
    kind: 'plate',
    basis,
    shearModulus: G,
    kappa,
    responses: [],
    loads: [
      load('farField', 'sx', [1 / 4, -1 / 2, 0, 0], [0, 1, 0]),
      load('farField', 'sy', [1 / 4, 1 / 2, 0, 0], [1, 0, 0]),
      load('farField', 'txy', [0, 0, 0, 1], [0, 0, 1]),
      // A pressure p is a far field (p, p) on a free edge, less p everywhere.
      load('pressure', 'pressure', [1 / 2, 0, 0, 0], [0, 0, 0], -1),
    ],
    places: {
      points: [{ place: 'filler', x: 0, y: Number.POSITIVE_INFINITY, normalAngle: Math.PI / 2, layer: -1 }],
      rows: [1],
      ...plainMaps(basis, 1, []),
    },
    contour: undefined,
  };
}
