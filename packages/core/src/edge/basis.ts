import type { CurveNodes } from '../outline/index.js';
import type { InnerPoint } from './inner-point.js';

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

/** The functions of a basis at the solved nodes of one edge and at its inner point, local coordinates; all that knows that they are powers. */
export interface BasisTable {
  readonly degree: number;
  /** Value and three derivatives of function `k` at node `i`, `(re, im)` each: from `8 * (i * degree + k - 1)` on. */
  readonly atNodes: Float64Array;
  /** First derivative of function `k` at the inner point, `(re, im)`: at `2 * (k - 1)`. */
  readonly innerSlopes: Float64Array;
}

export const createBasisTable = (degree: number, rows: number): BasisTable => ({
  degree,
  atNodes: new Float64Array(8 * degree * rows),
  innerSlopes: new Float64Array(2 * degree),
});

/** Fills the table for the first `rows` nodes; allocates nothing. */
export function fillBasisTable(nodes: CurveNodes, rows: number, inner: InnerPoint, table: BasisTable): void {
  const { degree, atNodes, innerSlopes } = table;
  for (let i = 0; i < rows; i++) {
    const x = nodes.x[i]!;
    const y = nodes.y[i]!;
    // zeta^(k-3), zeta^(k-2), zeta^(k-1)
    let thirdX = 0;
    let thirdY = 0;
    let beforeX = 0;
    let beforeY = 0;
    let powerX = 1;
    let powerY = 0;
    for (let k = 1, at = 8 * i * degree; k <= degree; k++, at += 8) {
      const nextX = powerX * x - powerY * y;
      const nextY = powerX * y + powerY * x;
      atNodes[at] = nextX;
      atNodes[at + 1] = nextY;
      atNodes[at + 2] = k * powerX;
      atNodes[at + 3] = k * powerY;
      atNodes[at + 4] = k * (k - 1) * beforeX;
      atNodes[at + 5] = k * (k - 1) * beforeY;
      atNodes[at + 6] = k * (k - 1) * (k - 2) * thirdX;
      atNodes[at + 7] = k * (k - 1) * (k - 2) * thirdY;
      thirdX = beforeX;
      thirdY = beforeY;
      beforeX = powerX;
      beforeY = powerY;
      powerX = nextX;
      powerY = nextY;
    }
  }
  let powerX = 1;
  let powerY = 0;
  for (let k = 1; k <= degree; k++) {
    innerSlopes[2 * k - 2] = k * powerX;
    innerSlopes[2 * k - 1] = k * powerY;
    const nextX = powerX * inner.x - powerY * inner.y;
    powerY = powerX * inner.y + powerY * inner.x;
    powerX = nextX;
  }
}
