import type { RegularBasis } from '../../edge/index.js';
import type { Ply } from '../../material/index.js';
import { withoutPlaces } from '../place-maps.js';
import type { ReducedModel } from '../reduced-model.js';
import type { CondensedHost } from './condensed.js';
import { insideContour } from './inside.js';
import { type ScalarLoad, type SolvedFields, type StillLoad, solveInside } from './reduce.js';

/**
 * The reduced model of a host of one's own that was condensed onto a control contour: all that the stress at a channel's edge needs. The stresses
 * elsewhere, and with them the strength of the whole section, are left out.
 *
 * @param kind of the host, as it is registered or not
 * @param material inside the contour; isotropic in the plane
 * @param basis see `contourBasis`
 * @throws Error where a closed contour is answered by symmetry classes, or half a contour as a whole
 */
export function reduceCondensed(
  kind: string,
  host: CondensedHost,
  material: Ply,
  basis: RegularBasis,
  loads: readonly (ScalarLoad | StillLoad)[],
): ReducedModel {
  return edgeOnly(kind, solveInside(host, insideContour(host.contour, material, basis), loads).fields);
}

/** A model of what was solved that tells the stress at a channel's edge alone. */
export function edgeOnly(kind: string, { basis, shearModulus, kappa, responses, loads }: SolvedFields): ReducedModel {
  const none = new Float64Array(0);
  return {
    kind,
    basis,
    shearModulus,
    kappa,
    responses,
    loads: loads.map((load) => ({ ...load, atPlaces: none })),
    places: withoutPlaces(basis),
    contour: undefined,
  };
}
