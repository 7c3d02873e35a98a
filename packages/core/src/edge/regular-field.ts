import { type BasisTable, halfSize, isReal } from './basis.js';
import { type EdgeFold, holdsClass, isHalf, shareOf, solvedNodes } from './fold.js';
import type { LocalEdge } from './local-nodes.js';

/**
 * What the regular fields are on an edge, one row a field of one symmetry class (see `RegularBasis` for their order).
 *
 * `H` (row-major, `2 rows x 2 degree`): the right side `phi - t conj(phi') - conj(psi) + (t - z0) Re phi'(z0)` of each field at each node;
 * of a `half` the factor is `t - i Im z0`.
 * `Q` (row-major, `2 degree x 2 rows`): the moments that the host sees, `Re oint conj(phi) (-i dF)` (Betti), by the trapezoidal rule.
 */
export interface EdgeFields {
  readonly H: Float64Array;
  readonly Q: Float64Array;
  /** Row length of Q where it holds other edges, too. */
  readonly order?: number;
}

/** Regular fields of one symmetry class, and the first one's place among all that are solved for. */
export interface FieldClass {
  /** The basis functions at the nodes of the edge. */
  readonly table: BasisTable;
  readonly symmetric: boolean;
  readonly first: number;
}

/** The classes that an edge is solved with. */
export function fieldClasses(table: BasisTable, fold: EdgeFold): readonly FieldClass[] {
  const held = [true, false].filter((symmetric) => holdsClass(fold, symmetric));
  return held.map((symmetric, k) => ({ table, symmetric, first: k * halfSize(table.basis.degree) }));
}

/** Writes H and Q of one of an edge's classes. `columns` is the row length of H. */
export function writeEdgeFields(
  { nodes, fold, inner }: LocalEdge,
  { table, symmetric, first }: FieldClass,
  columns: number,
  out: EdgeFields,
): void {
  const { count, x, y, dx, dy } = nodes;
  const { atNodes, innerSlopes } = table;
  const { degree } = table.basis;
  const rows = solvedNodes(fold, count);
  const { H, Q, order = 2 * rows } = out;
  const weight = (shareOf(fold) * 2 * Math.PI) / count;
  const half = isHalf(fold);
  for (let i = 0; i < rows; i++) {
    const tx = x[i]!;
    const ty = y[i]!;
    const ux = dx[i]! * weight;
    const uy = dy[i]! * weight;
    const fromInnerX = half ? tx : tx - inner.x;
    const fromInnerY = ty - inner.y;
    const top = 2 * i * columns + first;
    const bottom = top + columns;
    for (let k = 1, at = 8 * i * degree; k <= degree; k++, at += 8) {
      const valueX = atNodes[at]!;
      const valueY = atNodes[at + 1]!;
      const slopeX = atNodes[at + 2]!;
      const slopeY = atNodes[at + 3]!;
      const bendX = atNodes[at + 4]!;
      const bendY = atNodes[at + 5]!;
      // conj(phi'' t') and conj(psi' t') of the real coefficient.
      const bentX = bendX * ux - bendY * uy;
      const bentY = -(bendX * uy + bendY * ux);
      const slantX = slopeX * ux - slopeY * uy;
      const slantY = -(slopeX * uy + slopeY * ux);
      const phiAt = top + 2 * (k - 1);
      const psiAt = phiAt + 1;
      const phiBelow = bottom + 2 * (k - 1);
      const phiRow = (first + 2 * (k - 1)) * order + 2 * i;
      const psiRow = phiRow + order;
      if (isReal(k, symmetric)) {
        const atInner = innerSlopes[2 * k - 2]!;
        H[phiAt] = valueX - (tx * slopeX + ty * slopeY) + fromInnerX * atInner;
        H[phiBelow] = valueY - (ty * slopeX - tx * slopeY) + fromInnerY * atInner;
        H[psiAt] = -valueX;
        H[phiBelow + 1] = valueY;
        // -i F' = (Im F', -Re F').
        const forceX = 2 * slopeX * ux + tx * bentX - ty * bentY;
        const forceY = 2 * slopeX * uy + tx * bentY + ty * bentX;
        Q[phiRow] = forceY;
        Q[phiRow + 1] = -forceX;
        Q[psiRow] = slantY;
        Q[psiRow + 1] = -slantX;
      } else {
        const atInner = -innerSlopes[2 * k - 1]!;
        // i f + i t conj(slope), -conj(i f) = i conj(f).
        H[phiAt] = -valueY - (ty * slopeX - tx * slopeY) + fromInnerX * atInner;
        H[phiBelow] = valueX + (tx * slopeX + ty * slopeY) + fromInnerY * atInner;
        H[psiAt] = valueY;
        H[phiBelow + 1] = valueX;
        // conj(i a) = -i conj(a): (bentX, bentY) becomes (bentY, -bentX).
        const forceX = -2 * slopeY * ux + tx * bentY + ty * bentX;
        const forceY = -2 * slopeY * uy - tx * bentX + ty * bentY;
        Q[phiRow] = forceY;
        Q[phiRow + 1] = -forceX;
        Q[psiRow] = -slantX;
        Q[psiRow + 1] = -slantY;
      }
    }
  }
}
