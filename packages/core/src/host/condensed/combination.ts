import { type Factor, factorize } from '../../linear/index.js';
import type { Recoverable } from './condensed.js';

/** An unknown as a combination of kept dofs. */
export type Combination = readonly (readonly [dof: number, weight: number])[];

/** A factor's kept dofs as combinations of other unknowns, with their matrix. */
interface Combined {
  readonly factor: Factor;
  readonly unknowns: readonly Combination[];
  readonly matrix: Float64Array;
}

/** Eliminates all but the first `kept` unknowns, from which those that the factor kept come. */
export function eliminateBeyond(
  kept: number,
  { factor, unknowns, matrix }: Combined,
): { readonly schur: Float64Array; readonly kept: Recoverable['kept'] } {
  const order = unknowns.length;
  const small = factorize(
    {
      dofCount: order,
      offsets: Int32Array.of(0, order),
      dofs: Int32Array.from({ length: order }, (_, dof) => dof),
      matrices: matrix,
      x: Float64Array.of(0),
      y: Float64Array.of(0),
    },
    { retained: Array.from({ length: kept }, (_, i) => i) },
  );
  return {
    schur: small.schur,
    kept(values, columns) {
      const free = small.expand(values, columns);
      const retained = new Float64Array(factor.retained.length * columns);
      unknowns.forEach((combination, i) => {
        for (const [dof, weight] of combination)
          for (let c = 0; c < columns; c++) retained[dof * columns + c]! += weight * free[i * columns + c]!;
      });
      return retained;
    },
  };
}

/** The kept matrix over other unknowns, row-major. */
export function combined({ schur, retained }: Factor, unknowns: readonly Combination[]): Float64Array {
  const whole = retained.length;
  const order = unknowns.length;
  const half = new Float64Array(whole * order);
  for (let i = 0; i < whole; i++)
    unknowns.forEach((combination, j) => {
      let sum = 0;
      for (const [dof, weight] of combination) sum += schur[i * whole + dof]! * weight;
      half[i * order + j] = sum;
    });
  const out = new Float64Array(order * order);
  unknowns.forEach((combination, i) => {
    for (const [dof, weight] of combination)
      for (let j = 0; j < order; j++) out[i * order + j]! += weight * half[dof * order + j]!;
  });
  return out;
}
