import type { DenseMatrix } from './batch.js';
import { factorize } from './factor.js';

/** Solves with a dense matrix that is symmetric and positive definite (its lower triangle is read), by Cholesky's method. */
export interface DefiniteFactor {
  /** One column a right side, one row an unknown; `rights` are left as they are. */
  solve(rights: DenseMatrix): DenseMatrix;
}

/** Throws `Error` where the matrix is not positive definite. */
export function factorDefinite({ values, rows }: DenseMatrix): DefiniteFactor {
  const factor = factorize({
    dofCount: rows,
    offsets: Int32Array.of(0, rows),
    dofs: Int32Array.from({ length: rows }, (_, i) => i),
    x: new Float64Array(1),
    y: new Float64Array(1),
    matrices: values,
  });
  return { solve: (rights) => ({ ...rights, values: factor.solve(rights.values, rights.columns) }) };
}
