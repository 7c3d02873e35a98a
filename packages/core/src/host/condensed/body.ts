import type { Factor } from '../../linear/index.js';
import type { OutsideBody } from './condensed.js';
import type { Recovery } from './recovery.js';

/** What an element tells of the stress `(s_n, s_t, s_nt)` at a point: three rows over its unknowns, an even number of them. */
export interface PointShare {
  readonly dofs: ArrayLike<number>;
  readonly rows: Float64Array;
}

/** A factored body of elements with its section points. */
export function outsideBody(factor: Factor, { points, shares }: Recovery): OutsideBody {
  return {
    points,
    stresses(kept, columns, chosen) {
      const wanted = new Set<number>();
      for (const point of chosen)
        for (const { dofs } of shares[point]!) for (const dof of Array.from(dofs)) wanted.add(dof);
      const unknowns = factor.expand(kept, columns, wanted);
      const out = new Float64Array(3 * chosen.length * columns);
      chosen.forEach((point, p) => {
        for (const share of shares[point]!) addShare(share, unknowns, out.subarray(3 * p * columns), columns);
      });
      return out;
    },
  };
}

/** Two unknowns and three components at a time. */
function addShare({ dofs, rows }: PointShare, unknowns: Float64Array, out: Float64Array, columns: number): void {
  const order = dofs.length;
  for (let i = 0; i < order; i += 2) {
    const a = dofs[i]! * columns;
    const b = dofs[i + 1]! * columns;
    const a0 = rows[i]!;
    const b0 = rows[i + 1]!;
    const a1 = rows[order + i]!;
    const b1 = rows[order + i + 1]!;
    const a2 = rows[2 * order + i]!;
    const b2 = rows[2 * order + i + 1]!;
    for (let c = 0; c < columns; c++) {
      const u = unknowns[a + c]!;
      const v = unknowns[b + c]!;
      out[c]! += a0 * u + b0 * v;
      out[columns + c]! += a1 * u + b1 * v;
      out[2 * columns + c]! += a2 * u + b2 * v;
    }
  }
}
