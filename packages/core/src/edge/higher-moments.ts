import { multiplyBatch, rowsIn } from '../linear/index.js';
import { type CurveNodes, createCurveNodes, type NodeRates } from '../outline/index.js';
import {
  type BasisTable,
  createBasisTable,
  createFunctions,
  functionAt,
  functionSize,
  halfSize,
  type RegularBasis,
  writeFunctions,
} from './basis.js';
import { packVelocities, wholeFours } from './edge-slopes.js';
import { writeMomentRates } from './field-rates.js';
import { type EdgeFold, holdsClass, shareOf, solvedNodes } from './fold.js';
import { toLocal } from './local-nodes.js';
import { type EdgeFields, writeEdgeFields } from './regular-field.js';

/**
 * Moments of an edge that was solved with fewer: of the fields of `basis` beyond an even degree `from`, `Re oint conj(phi) (-i dF)` as the solver has those up to
 * it. Buffers for one node count.
 */
export interface HigherMoments {
  /** Takes an edge, mm; of a pair the right one. */
  take(nodes: CurveNodes): void;
  /**
   * Writes those of every load, from boundary values of phi at all nodes, beyond those up to `from` into `out[load]`, `[symmetric | antisymmetric]` of the whole
   * basis; 0 in a class that the load's fold does not hold. `add`: to those of other edges that were solved with it. Allocates nothing.
   */
  write(phi: readonly Float64Array[], folds: readonly EdgeFold[], out: readonly Float64Array[], add?: boolean): void;
  /**
   * Rates of one load's, of the edge that was taken last: one row to a motion (mm per unit of it), those of the classes that its fold holds, each from degree
   * `from + 1` on. `phiRates` as in `EdgeSlopes`.
   */
  rates(of: SolvedLoad, motions: NodeRates, howMany: number): Float64Array;
}

/** What was solved of one load. */
export interface SolvedLoad {
  readonly phi: Float64Array;
  readonly phiRates: Float64Array;
  readonly fold: EdgeFold;
}

export function createHigherMoments(basis: RegularBasis, from: number, count: number): HigherMoments {
  const local = createCurveNodes(count);
  const functions = createFunctions(basis.degree);
  const half = halfSize(basis.degree);
  const tail = { ...basis, degree: basis.degree - from };
  let table: BasisTable | undefined;

  /** What a load's values give at a node, added up. */
  const addNode = (i: number, px: number, py: number, out: Float64Array): void => {
    const [tx, ty, ux, uy] = [local.x[i]!, local.y[i]!, local.dx[i]!, local.dy[i]!];
    // The moment is Re(g F'), g = -i conj(phi), F' = 2 Re(phi') t' + t conj(phi'' t') + conj(psi' t').
    const along = 2 * (px * uy - py * ux);
    for (let k = from + 1, at = functionAt(from + 1); k <= basis.degree; k++, at += functionSize) {
      const slopeX = functions[at + 2]!;
      const slopeY = functions[at + 3]!;
      const bentX = functions[at + 4]! * ux - functions[at + 5]! * uy;
      const bentY = functions[at + 4]! * uy + functions[at + 5]! * ux;
      const turnedX = slopeX * ux - slopeY * uy;
      const turnedY = slopeX * uy + slopeY * ux;
      // t conj(phi'' t')
      const fieldX = tx * bentX + ty * bentY;
      const fieldY = ty * bentX - tx * bentY;
      // Of f_k and of i f_k.
      const real = along * slopeX - py * fieldX + px * fieldY;
      const turned = -along * slopeY - px * fieldX - py * fieldY;
      const psiReal = -py * turnedX - px * turnedY;
      const psiTurned = -px * turnedX + py * turnedY;
      const even = 2 * (k - 1);
      const odd = half + even;
      const symmetricIsReal = (k & 1) === 1;
      out[even]! += symmetricIsReal ? real : turned;
      out[even + 1]! += symmetricIsReal ? psiReal : psiTurned;
      out[odd]! += symmetricIsReal ? turned : real;
      out[odd + 1]! += symmetricIsReal ? psiTurned : psiReal;
    }
  };

  return {
    take(nodes) {
      toLocal(nodes, basis, local);
      table = undefined;
    },
    write(phi, folds, out, add = false) {
      const first = halfSize(from);
      let rows = 0;
      folds.forEach((fold, l) => {
        rows = Math.max(rows, solvedNodes(fold, count));
        if (add) return;
        out[l]!.fill(0, first, half);
        out[l]!.fill(0, half + first);
      });
      for (let i = 0; i < rows; i++) {
        writeFunctions(basis, local.x[i]!, local.y[i]!, 2, functions);
        for (let l = 0; l < phi.length; l++) {
          const weight = (shareOf(folds[l]!) * 2 * Math.PI) / count;
          addNode(i, weight * phi[l]![2 * i]!, weight * phi[l]![2 * i + 1]!, out[l]!);
        }
      }
      // Of a folded edge, the images take away what the other class has.
      folds.forEach((fold, l) => {
        if (!holdsClass(fold, true)) out[l]!.fill(0, first, half);
        if (!holdsClass(fold, false)) out[l]!.fill(0, half + first);
      });
    },
    rates({ phi, phiRates, fold }, motions, howMany) {
      const rows = solvedNodes(fold, count);
      const edge = { nodes: local, fold, inner: { x: 0, y: 0 } };
      table ??= tailTable(basis, from, tail, local);
      const held = [true, false].filter((symmetric) => holdsClass(fold, symmetric));
      const fields = held.length * halfSize(tail.degree);
      const batch = wholeFours(howMany);
      const columns = 4 * rows;
      const velocities = new Float64Array(batch * columns);
      packVelocities(motions, { count, rows, howMany }, 1 / basis.length, rowsIn(velocities, columns));
      const moved = { values: new Float64Array(fields * columns), rows: fields, columns };
      const seen: EdgeFields = { H: new Float64Array(2 * rows * fields), Q: new Float64Array(fields * 2 * rows) };
      held.forEach((symmetric, n) => {
        const one = { table: table!, symmetric, first: n * halfSize(tail.degree) };
        writeMomentRates(edge, one, phi, moved);
        writeEdgeFields(edge, one, fields, seen);
      });
      const out = new Float64Array(batch * fields);
      multiplyBatch(moved, rowsIn(velocities, columns), batch, rowsIn(out, fields));
      const Q = { values: seen.Q, rows: fields, columns: 2 * rows };
      multiplyBatch(Q, rowsIn(phiRates, 2 * rows), batch, rowsIn(out, fields), true);
      return out;
    },
  };
}

/** The functions beyond an even degree as if they were a basis: which class has them real or imaginary stays as it is. */
function tailTable(basis: RegularBasis, from: number, tail: RegularBasis, local: CurveNodes): BasisTable {
  const table = createBasisTable(tail, local.count);
  const functions = createFunctions(basis.degree);
  const beyond = functions.subarray(functionAt(from + 1));
  for (let i = 0; i < local.count; i++) {
    writeFunctions(basis, local.x[i]!, local.y[i]!, 3, functions);
    table.atNodes.set(beyond, functionSize * tail.degree * i);
  }
  return table;
}
