import { framedCount, framedOrder, type HostResponse, halfSize, plainFrame, type RegularBasis } from '../edge/index.js';
import type { SectionPoint } from './place.js';

/** One array for each symmetry class, or one for all fields. */
export type ByFields =
  | { readonly symmetric: Float64Array; readonly antisymmetric: Float64Array }
  | { readonly whole: Float64Array };

/**
 * Stress at places of the joint outside the control contour, linear in the moments of the channel's edge: that of the undisturbed
 * loads plus `change` times the moments. Beside a channel at the wall's limit the moments that its edge is solved with do not tell all of it
 * (3 to 18 % of the largest stress are missing): the maps take more of them. Values are `(n, t, nt)` of every point in its own axes, MPa.
 *
 * Of a mirror-symmetric host, points lie in the right half: at their mirror images, in mirrored axes, the antisymmetric part has the
 * other sign. Any other host (`isMirrored`) has all of its points.
 */
export interface PlaceMaps {
  /** Of a model's edge part: not given, so that no strength can be told. */
  readonly leftOut?: true;
  readonly points: readonly SectionPoint[];
  /** Rows of points that follow each other along the section: how many points each has, in the order of `points`. */
  readonly rows: readonly number[];
  /** The regular fields whose moments tell: those of the model's own basis, and more of them. */
  readonly basis: RegularBasis;
  /** Degree of the moments that tell a point's stress, point by point: the further off, the lower. */
  readonly degrees: readonly number[];
  /** What the moments are taken in, of the form of the responses: the upper triangle of `toFrame`, row-major. */
  readonly frame: ByFields;
  /** One per response of the model and of its form: three rows a point over the framed moments up to its degree. */
  readonly change: readonly ByFields[];
  /** Stress of a unit of strain along the channel, without it: one array per response, like a load's `atPlaces`. Left out: none strains so. */
  readonly strained?: readonly Float64Array[];
  /** Where to look at the filler inside the contour while there is no channel: a grid from the lower left, mm. */
  readonly inner?: {
    readonly xMin: number;
    readonly xMax: number;
    readonly yMin: number;
    readonly yMax: number;
    readonly step: number;
  };
}

/** Of a model that tells the stress at a channel's edge and nothing else. */
export function withoutPlaces(basis: RegularBasis): PlaceMaps {
  return { leftOut: true, points: [], rows: [], ...plainMaps(basis, 0, []) };
}

/**
 * Maps over the moments of a host's own basis as they are, for hosts that are known in closed form: `change` as `PlaceMaps.change`, but with rows of `3 points` over
 * all the moments that a response's matrix takes.
 */
export function plainMaps(
  basis: RegularBasis,
  points: number,
  change: readonly HostResponse[],
): Pick<PlaceMaps, 'basis' | 'degrees' | 'frame' | 'change'> {
  const { degree } = basis;
  const rowsOf = (of: 'symmetric' | 'antisymmetric' | 'whole', all: Float64Array) => {
    const order = framedOrder(of, degree);
    const columns = (of === 'whole' ? 2 : 1) * halfSize(degree);
    return Float64Array.from({ length: 3 * points * order.length }, (_, i) => {
      const row = Math.floor(i / order.length);
      return all[row * columns + order[i % order.length]!]!;
    });
  };
  const frame = (of: 'symmetric' | 'antisymmetric' | 'whole') => plainFrame(framedCount(of, degree));
  return {
    basis,
    degrees: new Array<number>(points).fill(degree),
    frame: change.some((map) => 'whole' in map)
      ? { whole: frame('whole') }
      : { symmetric: frame('symmetric'), antisymmetric: frame('antisymmetric') },
    change: change.map((map) =>
      'whole' in map
        ? { whole: rowsOf('whole', map.whole) }
        : { symmetric: rowsOf('symmetric', map.symmetric), antisymmetric: rowsOf('antisymmetric', map.antisymmetric) },
    ),
  };
}
