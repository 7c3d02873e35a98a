import type { Holding, Linearised } from './curvature-program.js';

/** Second derivatives of the Lagrangian before anything is known of them, for normal moves (mean square) and for the values themselves, in units. */
const ofMoves = 1;
const ofValues = 0.01;
/** Share of the old curvature along a step below which what was seen is blended with it: Powell's damping. */
const damping = 0.2;

/** What is known of the Lagrangian's second derivatives at some cost: lower triangle, in units of the values. */
export interface Bend {
  readonly triangle: Float64Array;
  readonly units: Float64Array;
  readonly scale: number;
}

/** What another descent has learnt, in the units of this one. */
export function carriedBend({ triangle, units, scale }: Bend, to: Linearised): Float64Array {
  const size = units.length;
  const out = triangle.slice();
  const factor = units.map((unit, k) => to.limits.units[k]! / unit);
  for (let k = 0; k < size; k++)
    for (let l = 0; l <= k; l++) out[k * size + l]! *= (factor[k]! * factor[l]! * scale) / to.scale;
  return out;
}

/** A first bend of the Lagrangian, lower triangle, in units of the values. */
export function firstBend({ slopes: { normal }, limits: { units, unit } }: Linearised): Float64Array {
  const size = units.length;
  const out = new Float64Array(size * size);
  const count = normal.length / size;
  const scaled = new Float64Array(size);
  for (let j = 0; j < count; j++) {
    for (let k = 0; k < size; k++) scaled[k] = (normal[j * size + k]! * units[k]!) / unit;
    for (let k = 0; k < size; k++)
      for (let l = 0; l <= k; l++) out[k * size + l]! += (ofMoves / count) * scaled[k]! * scaled[l]!;
  }
  for (let k = 0; k < size; k++) out[k * size + k]! += ofValues;
  return out;
}

/** No bend: programs become linear. */
export const noBend = (size: number): Float64Array => new Float64Array(size * size);

/**
 * Learns from the slopes at both ends of a step: the update of Broyden, Fletcher, Goldfarb & Shanno, damped so that the bend stays positive definite (Powell, in Numerical
 * Analysis, Dundee 1977, Lecture Notes in Mathematics 630 (1978) 144-157).
 */
export function learnBend(bend: Float64Array, from: Linearised, to: Linearised, holding: Holding): void {
  const { units } = to.limits;
  const size = units.length;
  const step = to.values.map((value, k) => (value - from.values[k]!) / units[k]!);
  const before = lagrangianSlopes(from, holding);
  const change = lagrangianSlopes(to, holding).map((slope, k) => slope - before[k]!);
  const bent = new Float64Array(size);
  for (let k = 0; k < size; k++)
    for (let l = 0; l <= k; l++) {
      bent[k]! += bend[k * size + l]! * step[l]!;
      if (l < k) bent[l]! += bend[k * size + l]! * step[k]!;
    }
  const old = dot(step, bent);
  const seen = dot(step, change);
  if (!(old > 0 && Number.isFinite(seen))) return;
  if (seen < damping * old) {
    const share = ((1 - damping) * old) / (old - seen);
    for (let k = 0; k < size; k++) change[k] = share * change[k]! + (1 - share) * bent[k]!;
  }
  const now = dot(step, change);
  for (let k = 0; k < size; k++)
    for (let l = 0; l <= k; l++) bend[k * size + l]! += (change[k]! * change[l]!) / now - (bent[k]! * bent[l]!) / old;
}

/** Slopes of the Lagrangian, per unit of every value. */
function lagrangianSlopes({ slopes, closures, limits: { units } }: Linearised, holding: Holding): Float64Array {
  const size = units.length;
  const out = new Float64Array(size);
  const add = (rows: Float64Array, row: number, share: number) => {
    for (let k = 0; k < size; k++) out[k]! += share * rows[row * size + k]! * units[k]!;
  };
  for (const { row, share } of holding.cost) add(slopes.functions, row, share);
  for (const { row, share } of holding.room) add(slopes.room, row, share);
  for (const { row, share } of holding.limits) add(slopes.limits, row, share);
  for (const { row, share } of holding.closures) add(closures, row, share);
  add(slopes.area, 0, holding.area);
  return out;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k]! * b[k]!;
  return sum;
}
