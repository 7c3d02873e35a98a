import { type DenseMatrix, multiplyBatch, rowsIn } from '../linear/index.js';
import type { NodeRates } from '../outline/index.js';
import { halfSize } from './basis.js';
import { createEdgeFactors } from './edge-factors.js';
import type { EdgeLoad } from './edge-solver.js';
import { addFieldRates, writeMomentRates } from './field-rates.js';
import { holdsClass, solvedNodes } from './fold.js';
import { createHoopRates } from './hoop-rates.js';
import { writeAnswer } from './host-response.js';
import { writeEdgeRates } from './kernel-rates.js';
import type { LocalEdge } from './local-nodes.js';
import type { EdgeFields, FieldClass } from './regular-field.js';

/** The discrete equation of one edge in local coordinates, `matrix phi - H R Q phi = H c0`, as a solver has left it. */
export interface EdgeSystem {
  readonly edge: LocalEdge;
  /** mm */
  readonly length: number;
  readonly matrix: Float64Array;
  readonly fields: EdgeFields;
  readonly classes: readonly FieldClass[];
  /** What was solved, one array per load: values at all nodes, and what the host sees of them. */
  readonly phi: readonly Float64Array[];
  readonly moments: readonly Float64Array[];
}

/** Rates of what a solution says of an edge, for a batch of motions: one array per load, one row to a motion. Overwritten by the next call. */
export interface EdgeSlopes {
  /** Of the hoop stress at the solved nodes (of a mirror-symmetric edge, the first half). MPa per unit of the motion */
  readonly hoop: readonly Float64Array[];
  /** The same half way to the next node. */
  readonly halfway: readonly Float64Array[];
  /** Of the moments that the host sees, of one load: worked out when asked for (the peak needs none), before the next solve. */
  moments(load: number): Float64Array;
  /** Boundary values of phi as `EdgeSolution` has them, and their rates at the solved nodes, `(Re, Im)` node by node. */
  readonly phi: readonly Float64Array[];
  readonly phiRates: readonly Float64Array[];
}

export interface SlopeSolver {
  slopes(loads: readonly EdgeLoad[], motions: NodeRates, howMany: number): EdgeSlopes;
}

/** Rows of batches come in fours, the last ones empty: so they go fastest. */
export const wholeFours = (howMany: number): number => 4 * Math.ceil(howMany / 4);

/**
 * Slopes of the discrete equation, derived here: differentiated it reads `M phi' = -A' phi + H' c + H R (Q' phi)`, `M = A - H R Q`, with the whole regular field
 * `c = c0 + R Q phi`. Buffers for up to `most` motions and `loadCount` loads.
 */
export function createSlopeSolver(system: EdgeSystem, loadCount: number, most: number): SlopeSolver {
  const { edge, length, matrix, fields, classes, phi, moments } = system;
  const { count } = edge.nodes;
  const { fold } = edge;
  const { table } = classes[0]!;
  const rows = solvedNodes(fold, count);
  const order = 2 * rows;
  const half = halfSize(table.basis.degree);
  const fieldCount = classes.length * half;
  /** Where the fields that are solved for begin among all. */
  const firstField = holdsClass(fold, true) ? 0 : half;
  const columns = 4 * rows;
  const room = wholeFours(most);
  const matrixOf = (height: number): DenseMatrix => ({
    values: new Float64Array(height * columns),
    rows: height,
    columns,
  });
  const velocities = new Float64Array(room * columns);
  /** Right side and moments that a unit velocity gives. */
  const sideRates = matrixOf(order);
  const momentRates = matrixOf(fieldCount);
  const Q: DenseMatrix = { values: fields.Q, rows: fieldCount, columns: order };
  const perLoad = (size: number) => Array.from({ length: loadCount }, () => new Float64Array(size));
  const rates = perLoad(room * order);
  const moved = perLoad(room * fieldCount);
  const complete = new Uint8Array(loadCount);
  let latest = 0;
  const coefficients = new Float64Array(fieldCount);
  const answered = new Float64Array(fieldCount);
  const factors = createEdgeFactors({ fold, order, fieldCount, matrix, fields });
  const reader = createHoopRates(count, fold === 'half', most);
  const out: EdgeSlopes = {
    hoop: perLoad(most * rows),
    halfway: perLoad(most * rows),
    moments(load) {
      // Moments follow the motion and the values: Q' phi + Q phi'.
      const all = moved[load]!;
      if (complete[load] === 0) multiplyBatch(Q, rowsIn(rates[load]!, order), latest, rowsIn(all, fieldCount), true);
      complete[load] = 1;
      return all;
    },
    phi,
    phiRates: rates,
  };

  /** Writes the whole regular field of a load. */
  const writeCoefficients = ({ response, undisturbed }: EdgeLoad, l: number): void => {
    coefficients.set(undisturbed.subarray(firstField, firstField + fieldCount));
    if (response === undefined) return;
    writeAnswer(response, half, fold, moments[l]!, answered);
    for (let f = 0; f < fieldCount; f++) coefficients[f]! += answered[f]!;
  };

  return {
    slopes(loads, motions, howMany) {
      latest = howMany;
      complete.fill(0);
      const batch = wholeFours(howMany);
      packVelocities(motions, { count, rows, howMany }, 1 / length, velocities);
      velocities.fill(0, howMany * columns, batch * columns);
      reader.take(edge.nodes, motions.dx, motions.dy, howMany, length);
      factors.factor(loads.map(({ response }) => response));
      for (let l = 0; l < loads.length; l++) {
        writeCoefficients(loads[l]!, l);
        writeEdgeRates(edge, phi[l]!, sideRates);
        addFieldRates(edge, table, coefficients, sideRates);
        for (const one of classes) writeMomentRates(edge, one, phi[l]!, momentRates);
        const [phiRates, seen] = [rates[l]!, moved[l]!];
        multiplyBatch(sideRates, rowsIn(velocities, columns), batch, rowsIn(phiRates, order));
        multiplyBatch(momentRates, rowsIn(velocities, columns), batch, rowsIn(seen, fieldCount));
        factors.finish(loads[l]!.response, seen, batch, phiRates);
        reader.write(phi[l]!, phiRates, out.hoop[l]!, out.halfway[l]!);
      }
      return out;
    },
  };
}

/** Motions of nodes of which the first `rows` are solved for. */
export interface Batch {
  readonly count: number;
  readonly rows: number;
  readonly howMany: number;
}

/** Velocities of the solved nodes in local coordinates, `(x, y, dx, dy)` node by node, one row to a motion. */
export function packVelocities(
  { x, y, dx, dy }: NodeRates,
  { count, rows, howMany }: Batch,
  scale: number,
  out: Float64Array,
): void {
  for (let p = 0, to = 0; p < howMany; p++)
    for (let j = p * count; j < p * count + rows; j++) {
      out[to++] = scale * x[j]!;
      out[to++] = scale * y[j]!;
      out[to++] = scale * dx[j]!;
      out[to++] = scale * dy[j]!;
    }
}
