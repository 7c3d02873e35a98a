import type { SectionPoint } from '../place.js';

/**
 * What the finite elements outside the control contour come down to: one symmetric matrix per half-model and support.
 *
 * The joint is mirror-symmetric, so only `x >= 0` is meshed, once with symmetric and once with antisymmetric conditions
 * on `x = 0`. Retained unknowns, in this order: `(u, v)` of the `nodes` on the right half of the contour (bottom to top,
 * the first and the last on `x = 0`; their constrained components stay in the list with zero rows and columns), then one
 * scalar per entry of `scalars`. The quadratic form is
 * `1/2 a^T matrix a`, `a = (u_Gamma, scalars)`, for the right half: its derivative with respect to `u_Gamma` is the nodal force
 * that the contour must apply to the host.
 */
export interface CondensedHalf {
  readonly symmetry: 'symmetric' | 'antisymmetric';
  /** 'free': no support but rigid-body pins that carry no force. */
  readonly support: 'clamped' | 'simple' | 'free';
  /**
   * `strainZ`: uniform axial strain, 1; `deltaT`: uniform temperature change, K; `pull`, `side`: N/mm on the whole web;
   * `moment`: N mm/mm at each skin end. Their mutual entries (compliances, axial stiffness) are filled in as well.
   */
  readonly scalars: readonly ('strainZ' | 'deltaT' | 'pull' | 'side' | 'moment')[];
  /** Row-major, order `2 * nodeCount + scalars.length`. */
  readonly matrix: Float64Array;
  /**
   * Stresses at section points from the retained unknowns: for unknown vectors as the columns of `a` (row-major,
   * order x columns) gives `points x 3 x columns` row-major, components in the point's local axes.
   */
  recover(a: Float64Array, columns: number): Float64Array;
}

/** The host of a tee, condensed onto its control contour. Lengths in mm. */
export interface CondensedHost {
  /** Right half of the contour as quadratic edges: `x, y` of 2 * edges + 1 nodes, odd ones mid-side, bottom to top. */
  readonly nodes: { readonly x: Float64Array; readonly y: Float64Array };
  readonly halves: readonly CondensedHalf[];
  /** Where `recover` gives stresses. */
  readonly sectionPoints: readonly SectionPoint[];
}
