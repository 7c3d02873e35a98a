import type { HostResponse } from '../edge/index.js';
import type { CondensedHalf } from './condensed/condensed.js';
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

/** Displacements `(u, v)` of the contour's nodes and the scalars of one state of a condensed half. */
export interface HalfState {
  readonly displacement: ArrayLike<number>;
  readonly scalars: Readonly<Partial<Record<CondensedHalf['scalars'][number], number>>>;
}

/** Stresses of several states at the points numbered in `chosen`: `3 chosen x states`, row-major, MPa. */
export function stressesAt(half: CondensedHalf, chosen: readonly number[], states: readonly HalfState[]): Float64Array {
  const order = Math.sqrt(half.matrix.length);
  const columns = states.length;
  const contour = order - half.scalars.length;
  const unknowns = new Float64Array(order * columns);
  states.forEach(({ displacement, scalars }, column) => {
    for (let i = 0; i < contour; i++) unknowns[i * columns + column] = displacement[i]!;
    half.scalars.forEach((scalar, s) => {
      unknowns[(contour + s) * columns + column] = scalars[scalar] ?? 0;
    });
  });
  const all = half.recover(unknowns, columns);
  const out = new Float64Array(3 * chosen.length * columns);
  chosen.forEach((point, p) => {
    out.set(all.subarray(3 * point * columns, 3 * (point + 1) * columns), 3 * p * columns);
  });
  return out;
}
