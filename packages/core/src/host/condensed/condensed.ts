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
}

/** A host condensed onto its control contour. Lengths in mm. */
export interface CondensedHost<Outside extends Condensed = Condensed> {
  readonly contour: ContourNodes;
  /** As the host is held under one load or another: each answers for itself. */
  readonly supports: readonly ByClass<Outside>[];
}

/** What lies outside a contour, condensed so that the stresses in it can be told. */
export interface Recoverable<Scalar extends string = string> extends Condensed<Scalar> {
  /** Unknown vectors as the columns of `a` (row-major, order x columns), as what the body kept of them: a row each. */
  kept(a: Float64Array, columns: number): Float64Array;
}

/** One body of elements, however it is held. */
export interface OutsideBody {
  readonly points: readonly SectionPoint[];
  /** Stresses at the points numbered in `chosen`, from what the body kept of states: `3 chosen x columns` row-major, MPa, components in the points' local axes. */
  stresses(kept: Float64Array, columns: number, chosen: readonly number[]): Float64Array;
}

/** A condensed host that tells the stresses outside its contour. */
export interface RecoverableHost<Scalar extends string = string> extends CondensedHost<Recoverable<Scalar>> {
  readonly body: OutsideBody;
}

/** Displacements `(u, v)` of the contour's nodes and the scalars of one state. */
export interface CondensedState {
  readonly displacement: ArrayLike<number>;
  readonly scalars: Readonly<Record<string, number>>;
}

/** What the body kept of several states, one a column. */
export function keptOf(outside: Recoverable, states: readonly CondensedState[]): Float64Array {
  const order = Math.sqrt(outside.matrix.length);
  const columns = states.length;
  const contour = order - outside.scalars.length;
  const unknowns = new Float64Array(order * columns);
  states.forEach(({ displacement, scalars }, column) => {
    for (let i = 0; i < contour; i++) unknowns[i * columns + column] = displacement[i]!;
    outside.scalars.forEach((scalar, s) => {
      unknowns[(contour + s) * columns + column] = scalars[scalar] ?? 0;
    });
  });
  return outside.kept(unknowns, columns);
}
