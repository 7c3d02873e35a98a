import type { SectionPoint } from '../place.js';

/**
 * Which of the regular fields act: of a mirror-symmetric host those of one symmetry class at a time, on the right half of its contour; of any
 * other host all of them, on the whole contour.
 */
export type FieldClass = 'symmetric' | 'antisymmetric' | 'whole';

/** One of something for each symmetry class of a mirror-symmetric host, or one for all fields. */
export type ByClass<T> = { readonly symmetric: T; readonly antisymmetric: T } | { readonly whole: T };

export function mapClasses<T, U>(by: ByClass<T>, map: (value: T, of: FieldClass) => U): ByClass<U> {
  if ('whole' in by) return { whole: map(by.whole, 'whole') };
  return { symmetric: map(by.symmetric, 'symmetric'), antisymmetric: map(by.antisymmetric, 'antisymmetric') };
}

/** The one that a load acts in. `symmetric`: its field is, in `x = 0`. */
export function inClass<T>(by: ByClass<T>, symmetric: boolean): T {
  if ('whole' in by) return by.whole;
  return symmetric ? by.symmetric : by.antisymmetric;
}

/**
 * A control contour as quadratic edges, counter-clockwise, mm; odd nodes are mid-side. Of a mirror-symmetric host its right half, from the
 * bottom to the top: `2 edges + 1` nodes, the first and the last on `x = 0`. Of any other host all of it, `closed`: `2 edges` nodes, the
 * last edge ending in the first.
 */
export interface ContourNodes {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly closed: boolean;
}

/**
 * What the finite elements outside a control contour come down to: one symmetric matrix.
 *
 * Retained unknowns, in this order: `(u, v)` of the contour's nodes (of a half contour those that its symmetry holds stay in the list, with
 * zero rows and columns), then one scalar per entry of `scalars`. The quadratic form is `1/2 a^T matrix a`, `a = (u_Gamma, scalars)`: its
 * derivative with respect to `u_Gamma` is the nodal force that the contour must apply to what lies outside. No rigid motion may be left
 * free: pins that carry no force hold a body without supports.
 */
export interface Condensed<Scalar extends string = string> {
  /**
   * By names of the host's own, but for two that act inside the contour as well: `strainZ`, a uniform axial strain, 1, and `deltaT`, a uniform
   * change of temperature, K. Their mutual entries (compliances, axial stiffness) are filled in as well.
   */
  readonly scalars: readonly Scalar[];
  /** Row-major, order `2 * nodeCount + scalars.length`. */
  readonly matrix: Float64Array;
  /**
   * Stresses at section points from the retained unknowns: for unknown vectors as the columns of `a` (row-major,
   * order x columns) gives `points x 3 x columns` row-major, components in the point's local axes.
   */
  recover(a: Float64Array, columns: number): Float64Array;
}

/** A host condensed onto its control contour. Lengths in mm. */
export interface CondensedHost<Scalar extends string = string> {
  readonly contour: ContourNodes;
  /** As the host is held under one load or another: each answers for itself. */
  readonly supports: readonly ByClass<Condensed<Scalar>>[];
  /** Where `recover` gives stresses. */
  readonly sectionPoints: readonly SectionPoint[];
}

/** Displacements `(u, v)` of the contour's nodes and the scalars of one state. */
export interface CondensedState {
  readonly displacement: ArrayLike<number>;
  readonly scalars: Readonly<Record<string, number>>;
}

/** Stresses of several states at the points numbered in `chosen`: `3 chosen x states`, row-major, MPa. */
export function stressesAt(
  condensed: Condensed,
  chosen: readonly number[],
  states: readonly CondensedState[],
): Float64Array {
  const order = Math.sqrt(condensed.matrix.length);
  const columns = states.length;
  const contour = order - condensed.scalars.length;
  const unknowns = new Float64Array(order * columns);
  states.forEach(({ displacement, scalars }, column) => {
    for (let i = 0; i < contour; i++) unknowns[i * columns + column] = displacement[i]!;
    condensed.scalars.forEach((scalar, s) => {
      unknowns[(contour + s) * columns + column] = scalars[scalar] ?? 0;
    });
  });
  const all = condensed.recover(unknowns, columns);
  const out = new Float64Array(3 * chosen.length * columns);
  chosen.forEach((point, p) => {
    out.set(all.subarray(3 * point * columns, 3 * (point + 1) * columns), 3 * p * columns);
  });
  return out;
}
