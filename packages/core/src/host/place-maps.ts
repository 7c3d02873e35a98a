import type { HostResponse } from '../edge/index.js';
import type { SectionPoint } from './place.js';

/**
 * Stress at places of the joint outside the control contour, linear in the moments of the channel's edge: that of the undisturbed
 * loads plus `change` times the moments. Values are `(n, t, nt)` of every point in its own axes, MPa.
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
  /** One per response of the model and of its form: rows of `3 points` over the moments that each of its matrices takes, row-major. */
  readonly change: readonly HostResponse[];
  /**
   * Points (1) up to which the field around a channel can be continued beyond the control contour, which tells more than the moments
   * do where the edge is nearer than `within`, mm.
   */
  readonly continued: { readonly points: Uint8Array; readonly within: number };
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
export function withoutPlaces(): PlaceMaps {
  return {
    leftOut: true,
    points: [],
    rows: [],
    change: [],
    continued: { points: new Uint8Array(0), within: 0 },
  };
}
