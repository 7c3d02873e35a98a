import { factorLu, solveLu } from './lu.js';

/** Solves the dense system `matrix * x = right` of `size` unknowns (row-major) in place, see `factorLu`: `right` becomes `x`, `matrix` is spent. */
export function eliminate(matrix: Float64Array, right: Float64Array, size: number): void {
  factorLu(matrix, size);
  solveLu(matrix, size, right, 1);
}
