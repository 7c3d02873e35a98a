import type { DenseMatrix } from '../linear/index.js';
import { type BasisTable, isReal } from './basis.js';
import { holdsClass, shareOf, solvedNodes } from './fold.js';
import type { LocalEdge } from './local-nodes.js';
import type { FieldClass } from './regular-field.js';

/**
 * Adds what the motion of an edge does to the right side of a regular field of given `coefficients` (of the classes that are solved for), `(H c)'`, to the columns of
 * the nodes' own velocities: `[2 i Im phi' + Re phi'(z0)] w - conj(conj(t) phi'' + psi') conj(w)`. Layout of `rates` as in `writeEdgeRates`.
 */
export function addFieldRates(
  { nodes, fold }: LocalEdge,
  table: BasisTable,
  coefficients: Float64Array,
  { values: out, columns: stride }: DenseMatrix,
): void {
  const { atNodes, innerSlopes } = table;
  const { degree } = table.basis;
  const rows = solvedNodes(fold, nodes.count);
  const [even, odd] = [holdsClass(fold, true), holdsClass(fold, false)];
  /** Where the antisymmetric class begins among the coefficients. */
  const second = even ? 2 * degree : 0;
  let atInner = 0;
  for (let i = -1; i < rows; i++) {
    let slopeY = 0;
    let bendX = 0;
    let bendY = 0;
    let psiX = 0;
    let psiY = 0;
    for (let k = 1; k <= degree; k++) {
      const first = 2 * (k - 1);
      // Complex coefficients of phi and psi.
      const turned = !isReal(k, true);
      const symmetric = even ? coefficients[first]! : 0;
      const symmetricPsi = even ? coefficients[first + 1]! : 0;
      const other = odd ? coefficients[second + first]! : 0;
      const otherPsi = odd ? coefficients[second + first + 1]! : 0;
      const cx = turned ? other : symmetric;
      const cy = turned ? symmetric : other;
      const dx = turned ? otherPsi : symmetricPsi;
      const dy = turned ? symmetricPsi : otherPsi;
      if (i < 0) {
        atInner += cx * innerSlopes[first]! - cy * innerSlopes[first + 1]!;
        continue;
      }
      const at = 8 * (i * degree + k - 1);
      const fx = atNodes[at + 2]!;
      const fy = atNodes[at + 3]!;
      slopeY += cx * fy + cy * fx;
      psiX += dx * fx - dy * fy;
      psiY += dx * fy + dy * fx;
      bendX += cx * atNodes[at + 4]! - cy * atNodes[at + 5]!;
      bendY += cx * atNodes[at + 5]! + cy * atNodes[at + 4]!;
    }
    if (i < 0) continue;
    const tx = nodes.x[i]!;
    const ty = nodes.y[i]!;
    const mixedX = tx * bendX + ty * bendY + psiX;
    const mixedY = tx * bendY - ty * bendX + psiY;
    const at = 2 * i * stride + 4 * i;
    const below = at + stride;
    out[at]! += atInner - mixedX;
    out[at + 1]! += mixedY - 2 * slopeY;
    out[below]! += mixedY + 2 * slopeY;
    out[below + 1]! += atInner + mixedX;
  }
}

/**
 * Writes what the motion of an edge does to the moments of given boundary values, `(Q phi)'`: one row a field from the class's first on, columns as in
 * `writeEdgeRates`. With `F' = 2 Re(phi') t' + t conj(phi'' t') + conj(psi' t')` of a field,
 * its rate is `2 Re(phi'' w) t' + 2 Re(phi') w' + w conj(phi'' t') + t conj(phi''' w t' + phi'' w') + conj(psi'' w t' + psi' w')`.
 */
export function writeMomentRates(
  { nodes, fold }: LocalEdge,
  { table, symmetric, first: firstRow }: FieldClass,
  phi: Float64Array,
  { values: out, columns: stride }: DenseMatrix,
): void {
  const { count, x, y, dx, dy } = nodes;
  const { atNodes } = table;
  const { degree } = table.basis;
  const rows = solvedNodes(fold, count);
  const weight = (shareOf(fold) * 2 * Math.PI) / count;
  for (let i = 0; i < rows; i++) {
    const tx = x[i]!;
    const ty = y[i]!;
    const ux = dx[i]!;
    const uy = dy[i]!;
    // g = -i conj(phi): the moment is Re(g F').
    const gx = -weight * phi[2 * i + 1]!;
    const gy = -weight * phi[2 * i]!;
    const along = 2 * (gx * ux - gy * uy);
    // conj(g t) and conj(g)
    const cx = gx * tx - gy * ty;
    const cy = -(gx * ty + gy * tx);
    for (let k = 1, at = 8 * i * degree; k <= degree; k++, at += 8) {
      const real = isReal(k, symmetric);
      const slopeX = real ? atNodes[at + 2]! : -atNodes[at + 3]!;
      const slopeY = real ? atNodes[at + 3]! : atNodes[at + 2]!;
      const bendX = real ? atNodes[at + 4]! : -atNodes[at + 5]!;
      const bendY = real ? atNodes[at + 5]! : atNodes[at + 4]!;
      const thirdX = real ? atNodes[at + 6]! : -atNodes[at + 7]!;
      const thirdY = real ? atNodes[at + 7]! : atNodes[at + 6]!;
      // phi'' t' and phi''' t'
      const bentX = bendX * ux - bendY * uy;
      const bentY = bendX * uy + bendY * ux;
      const thickX = thirdX * ux - thirdY * uy;
      const thickY = thirdX * uy + thirdY * ux;
      const phiAt = (firstRow + 2 * (k - 1)) * stride + 4 * i;
      const psiAt = phiAt + stride;
      // Re(A w) = A_x w_x - A_y w_y for each of the terms, A = along phi'' + g conj(phi'' t') + conj(g t) phi''' t'.
      out[phiAt] = along * bendX + gx * bentX + gy * bentY + cx * thickX - cy * thickY;
      out[phiAt + 1] = -(along * bendY + gy * bentX - gx * bentY + cx * thickY + cy * thickX);
      out[phiAt + 2] = 2 * slopeX * gx + cx * bendX - cy * bendY;
      out[phiAt + 3] = -(2 * slopeX * gy + cx * bendY + cy * bendX);
      // conj(g) psi'' t' and conj(g) psi'
      out[psiAt] = gx * bentX + gy * bentY;
      out[psiAt + 1] = -(gx * bentY - gy * bentX);
      out[psiAt + 2] = gx * slopeX + gy * slopeY;
      out[psiAt + 3] = -(gx * slopeY - gy * slopeX);
    }
  }
}
