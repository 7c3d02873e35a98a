/**
 * A transversely isotropic ply (fibre direction 1), or an isotropic material as the same model.
 * Moduli and strengths in MPa, expansions in 1/K.
 */
export interface Ply {
  readonly E1: number;
  readonly E2: number;
  readonly nu12: number;
  readonly nu23: number;
  readonly G12: number;
  readonly alpha1: number;
  readonly alpha2: number;
  /** Strength across the fibres, also taken through the thickness and for the filler. MPa */
  readonly transverseTension: number;
  /** Interlaminar shear strength. MPa */
  readonly interlaminarShear: number;
}

/** One layer of a laminate: plies of one angle, or a smeared pair of opposite angles. */
export interface Layer {
  readonly thickness: number;
  /**
   * Angle from the tangent of the section, degrees: 0 along web, arc and foot, 90 along z. 'quasi-isotropic': one layer
   * whose stiffness is smeared over equal shares of 0, 45, -45 and 90.
   */
  readonly angle: number | 'quasi-isotropic';
  readonly ply: Ply;
}

/** Layers counted from the filler outward to the free surface. */
export type Layup = readonly Layer[];
