/**
 * Powers that span the regular fields: `phi` and `psi` each hold `zeta^k`, `k = 1..degree`, with real and imaginary
 * coefficients, `zeta = (z - centre) / length`.
 *
 * Coefficients are ordered `[mirror-symmetric | antisymmetric]`, `2 degree` each: for every k first phi, then psi. A field
 * symmetric in `x = 0` has real coefficients at odd and imaginary ones at even powers (its `phi(-conj z) = -conj phi(z)`),
 * an antisymmetric one the others.
 */
export interface RegularBasis {
  readonly degree: number;
  /** mm; the origin of `zeta` lies on the mirror line. */
  readonly centreX: number;
  readonly centreY: number;
  readonly length: number;
}

/** Number of coefficients of one symmetry. */
export const halfSize = (degree: number): number => 2 * degree;

/** Whether the coefficient of `zeta^k` in one symmetry class is real. */
export const isReal = (k: number, symmetric: boolean): boolean => (k % 2 === 1) === symmetric;
