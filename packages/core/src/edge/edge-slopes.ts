import { type DenseMatrix, multiplyBatch, type Rows, rowsIn } from '../linear/index.js';
import type { NodeRates } from '../outline/index.js';
import { addField, axialOf } from './axial.js';
import { createAxialRates } from './axial-rates.js';
import { halfSize } from './basis.js';
import { createEdgeFactors } from './edge-factors.js';
import type { EdgeLoad } from './edges-solver.js';
import { addFieldRates, writeMomentRates } from './field-rates.js';
import { type EdgeFold, holdsClass } from './fold.js';
import { createHoopRates } from './hoop-rates.js';
import { writeAnswer } from './host-response.js';
import { writeEdgeRates } from './kernel-rates.js';
import type { LocalEdge } from './local-nodes.js';
import type { EdgeFields, FieldClass } from './regular-field.js';

/** One of the edges that are solved together. */
export interface EdgePart {
  /** In local coordinates. */
  readonly edge: LocalEdge;
  readonly classes: readonly FieldClass[];
  /** Nodes that are solved for, and those of the edges before. */
  readonly rows: number;
  readonly before: number;
  /** What was solved at all nodes, one array per load. */
  readonly phi: readonly Float64Array[];
}

/** The discrete equation of edges that are solved together, `matrix phi - H R Q phi = H c0`, as a solver has left it. */
export interface EdgeSystem {
  readonly parts: readonly EdgePart[];
  readonly matrix: Float64Array;
  readonly fields: EdgeFields;
  /** Load by load: values at all nodes of all edges, what the host sees of them, and how it strains along the channel. */
  readonly phi: readonly Float64Array[];
  readonly moments: readonly Float64Array[];
  readonly strains: Float64Array;
}

/** Rates of what a solution says of an edge, for a batch of motions: one array per load, one row to a motion. Overwritten by the next call. */
export interface EdgeSlopes {
  /** Of the hoop stress at the solved nodes (of a mirror-symmetric edge, the first half), edge by edge. MPa per unit of the motion */
  readonly hoop: readonly Float64Array[];
  /** The same half way to the next node. */
  readonly halfway: readonly Float64Array[];
  /** Of the moments that the host sees, of one load: worked out when asked for (the peak needs none), before the next solve. */
  moments(load: number): Float64Array;
  /** Of the strain along the channel, likewise. */
  strains(load: number): Float64Array;
  /** Boundary values of phi as `EdgeSolution` has them, and their rates at the solved nodes, `(Re, Im)` node by node. */
  readonly phi: readonly Float64Array[];
  readonly phiRates: readonly Float64Array[];
}

export interface SlopeSolver {
  /** `motions` of each edge. */
  slopes(loads: readonly EdgeLoad[], motions: readonly NodeRates[], howMany: number): EdgeSlopes;
}

/** How exact slopes are found. They are handed to who asks for them (`exactSlopes`): half of the code that solves edges is theirs. */
export interface ExactSlopes {
  /** @hidden */
  readonly create: typeof createSlopeSolver;
}

/** Exact slopes, for `StressOptions.slopes`. */
export const exactSlopes: ExactSlopes = { create: createSlopeSolver };

/** Rows of batches come in fours, the last ones empty: so they go fastest. */
export const wholeFours = (howMany: number): number => 4 * Math.ceil(howMany / 4);

/**
 * Slopes of the discrete equation, derived here: differentiated it reads `M phi' = -A' phi + H' c + H R (Q' phi)`, `M = A - H R Q`, with the whole regular field
 * `c = c0 + R Q phi`; the strain along the channel adds to R and c0, and by its change with the area to the right side. Buffers for up to `most` motions and `loadCount` loads.
 */
function createSlopeSolver(system: EdgeSystem, loadCount: number, most: number): SlopeSolver {
  const { parts, matrix, fields, phi, moments, strains } = system;
  const [{ edge, classes }] = parts as readonly [EdgePart];
  const { count } = edge.nodes;
  const { fold } = edge;
  const edges = parts.map((part) => part.edge);
  const phiOf = Array.from({ length: loadCount }, (_, l) => parts.map((part) => part.phi[l]!));
  const rows = parts.reduce((sum, part) => sum + part.rows, 0);
  const order = 2 * rows;
  const { basis } = classes[0]!.table;
  const half = halfSize(basis.degree);
  const fieldCount = classes.length * half;
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
  const coefficientsOf = wholeFields(fold, half, moments, strains);
  const equation = { edges, basis, order, fieldCount, matrix, fields };
  const factors = createEdgeFactors(equation);
  const axialRates = createAxialRates(equation, strains, room);
  const readers = edges.map((one) => createHoopRates(count, one.fold, most));
  /** From the columns, or the block on the diagonal, of a part on. */
  const columnsOf = parts.map(({ before }) => ({ ...momentRates, values: momentRates.values.subarray(4 * before) }));
  const blockOf = parts.map(({ before }) => ({
    ...sideRates,
    values: sideRates.values.subarray(2 * before * (columns + 2)),
  }));
  /** Rows of a part in those of all: `perNode` values to each. */
  const rowsOf = (values: Float64Array, { before }: EdgePart, perNode: number): Rows => ({
    values,
    at: perNode * before,
    stride: perNode * rows,
  });
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
    strains: (load) => axialRates.of(load, out.moments(load)),
    phi,
    phiRates: rates,
  };

  return {
    slopes(loads, motions, howMany) {
      latest = howMany;
      complete.fill(0);
      const batch = wholeFours(howMany);
      parts.forEach((part, k) => {
        const batchOf = { count, rows: part.rows, howMany };
        packVelocities(motions[k]!, batchOf, 1 / basis.length, rowsOf(velocities, part, 4));
        readers[k]!.take(part.edge.nodes, motions[k]!.dx, motions[k]!.dy, howMany, basis.length);
      });
      velocities.fill(0, howMany * columns, batch * columns);
      axialRates.take(loads, velocities, howMany);
      factors.factor(loads.map(({ response }) => response));
      for (let l = 0; l < loads.length; l++) {
        const coefficients = coefficientsOf(loads[l]!, l);
        writeEdgeRates(edges, phiOf[l]!, sideRates);
        parts.forEach((part, k) => {
          addFieldRates(part.edge, part.classes[0]!.table, coefficients, blockOf[k]!);
          for (const one of part.classes) writeMomentRates(part.edge, one, part.phi[l]!, columnsOf[k]!);
        });
        const [phiRates, seen] = [rates[l]!, moved[l]!];
        multiplyBatch(sideRates, rowsIn(velocities, columns), batch, rowsIn(phiRates, order));
        multiplyBatch(momentRates, rowsIn(velocities, columns), batch, rowsIn(seen, fieldCount));
        axialRates.addFreed(l, phiRates);
        factors.finish(loads[l]!.response, seen, batch, phiRates);
        parts.forEach((part, k) => {
          const [hoop, halfway] = [rowsOf(out.hoop[l]!, part, 1), rowsOf(out.halfway[l]!, part, 1)];
          readers[k]!.write(part.phi[l]!, rowsOf(phiRates, part, 2), hoop, halfway);
        });
      }
      return out;
    },
  };
}

/** The whole regular field of each load, `half` coefficients to a class; overwritten by the next call. */
function wholeFields(fold: EdgeFold, half: number, moments: readonly Float64Array[], strains: Float64Array) {
  const fieldCount = fold === 'whole' ? 2 * half : half;
  /** Where the fields that are solved for begin among all. */
  const firstField = holdsClass(fold, true) ? 0 : half;
  const coefficients = new Float64Array(fieldCount);
  const answered = new Float64Array(fieldCount);
  return ({ response, undisturbed }: EdgeLoad, l: number): Float64Array => {
    for (let f = 0; f < fieldCount; f++) coefficients[f] = undisturbed[firstField + f]!;
    if (response === undefined) return coefficients;
    writeAnswer(response, half, fold, moments[l]!, answered);
    for (let f = 0; f < fieldCount; f++) coefficients[f]! += answered[f]!;
    const axial = axialOf(response.axial, fold);
    if (axial !== undefined) addField(axial, strains[l]!, coefficients);
    return coefficients;
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
  { values: out, at, stride }: Rows,
): void {
  for (let p = 0; p < howMany; p++)
    for (let j = p * count, to = at + p * stride; j < p * count + rows; j++) {
      out[to++] = scale * x[j]!;
      out[to++] = scale * y[j]!;
      out[to++] = scale * dx[j]!;
      out[to++] = scale * dy[j]!;
    }
}
