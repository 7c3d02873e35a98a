import type { OutlineFamily } from '../family.js';
import { createCurveRates } from '../node-rates.js';
import { type CurveNodes, createCurveNodes } from '../nodes.js';

/**
 * Largest difference between the derivatives at the nodes and the trigonometric differentiation of the node positions,
 * relative to the largest derivative: two ways to the same numbers, equal to rounding once the outline is resolved.
 */
export function derivativeError(nodes: CurveNodes): number {
  return Math.max(
    largestDifference(differentiate(nodes.x), nodes.dx),
    largestDifference(differentiate(nodes.y), nodes.dy),
    largestDifference(differentiate(nodes.dx), nodes.ddx),
    largestDifference(differentiate(nodes.dy), nodes.ddy),
  );
}

/** Periodic spectral differentiation (Trefethen, Spectral Methods in MATLAB, 2000, ch. 3): even number of nodes. */
function differentiate(values: Float64Array): Float64Array {
  const n = values.length;
  const out = new Float64Array(n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++)
      if (i !== j) out[i]! += (0.5 * (-1) ** (i - j) * values[j]!) / Math.tan(((i - j) * Math.PI) / n);
  return out;
}

function largestDifference(a: Float64Array, b: Float64Array): number {
  let scale = 0;
  let difference = 0;
  for (let j = 0; j < a.length; j++) {
    scale = Math.max(scale, Math.abs(b[j]!));
    difference = Math.max(difference, Math.abs(a[j]! - b[j]!));
  }
  return difference / scale;
}

/** Parameter values at fractions (0 to 1) of the ranges of a family. */
export function valuesAt(family: OutlineFamily, fractions: ArrayLike<number>): number[] {
  return family.parameters.map(({ lower, upper }, i) => lower + fractions[i]! * (upper - lower));
}

export function placed(family: OutlineFamily, values: ArrayLike<number>, count: number): CurveNodes {
  const nodes = createCurveNodes(count);
  family.place(values, nodes);
  return nodes;
}

/** Whether both halves of an outline are mirror images to the last bit. */
export function isMirrored({ count, x, y, dx, dy, ddx, ddy }: CurveNodes): boolean {
  for (let j = 0, k = count - 1; j < k; j++, k--) {
    if (x[k] !== -x[j]! || y[k] !== y[j] || dx[k] !== dx[j]) return false;
    if (dy[k] !== -dy[j]! || ddx[k] !== -ddx[j]! || ddy[k] !== ddy[j]) return false;
  }
  return true;
}

/** Largest difference between a family's rates and central differences of its nodes, relative to the largest rate of each row and kind. */
export function rateError(family: OutlineFamily, values: readonly number[], count: number): number {
  const nodes = placed(family, values, count);
  const rates = createCurveRates(values.length, count);
  for (const row of Object.values(rates)) row.fill(Number.NaN);
  family.rates!(values, nodes, rates);
  let error = 0;
  family.parameters.forEach(({ lower, upper }, row) => {
    const step = 1e-5 * Math.min(1, upper - lower);
    const [ahead, behind] = [step, -step].map((by) => placed(family, values.with(row, values[row]! + by), count));
    for (const of of ['x', 'y', 'dx', 'dy', 'ddx', 'ddy'] as const) {
      const exact = rates[of].subarray(row * count, (row + 1) * count);
      const scale = Math.max(...exact.map(Math.abs), ...nodes[of].map(Math.abs));
      exact.forEach((rate, j) => {
        const difference = (ahead![of][j]! - behind![of][j]!) / (2 * step);
        // Written so that a NaN is seen.
        if (!(Math.abs(rate - difference) <= error * scale)) error = Math.abs(rate - difference) / scale;
      });
    }
  });
  return error;
}
