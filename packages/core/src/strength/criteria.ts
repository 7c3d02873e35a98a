/** Normal, tangential and shear stress at a point, in the axes of its criterion, MPa. */
export interface PointStress {
  n: number;
  t: number;
  s: number;
}

/**
 * Load factors to first failure, closed forms. Stress is what is held (pre-stress of the cure) plus `factor` times what grows
 * (the mechanical loads). All in MPa. Every function gives the least factor >= 0 at which its criterion is met:
 * 0 where the fixed part alone meets it, Infinity where no factor does, NaN for NaN.
 */

/** What delaminates. */
type Interlaminar = Pick<PointStress, 'n' | 's'>;

/**
 * Delamination onset, `(<n>/Z)^2 + (s/S)^2 = 1`: tension through the thickness n and interlaminar shear s against the strengths Z and
 * S; compression closes and counts for nothing (Brewer & Lagace, J. Compos. Mater. 22 (1988) 1141-1155).
 */
export function delaminationFactor(
  held: Interlaminar,
  grown: Interlaminar,
  tensileStrength: number,
  shearStrength: number,
): number {
  const a0 = held.n / tensileStrength;
  const a1 = grown.n / tensileStrength;
  const b0 = held.s / shearStrength;
  const b1 = grown.s / shearStrength;
  const opening = Math.max(0, a0);
  if (opening * opening + b0 * b0 >= 1) return 0;
  // The criterion is convex in the factor, so that it is met once: either closed, by shear alone, …
  const byShear = b1 === 0 ? Number.POSITIVE_INFINITY : (b1 > 0 ? 1 - b0 : -1 - b0) / b1;
  if (b1 !== 0 && a0 + byShear * a1 <= 0) return byShear;
  // … or open, at the larger root of a quadratic.
  const square = a1 * a1 + b1 * b1;
  if (square === 0) return Number.POSITIVE_INFINITY;
  const linear = a0 * a1 + b0 * b1;
  const constant = a0 * a0 + b0 * b0 - 1;
  const root = Math.sqrt(Math.max(0, linear * linear - square * constant));
  const factor = linear <= 0 ? (root - linear) / square : -constant / (root + linear);
  return a0 + factor * a1 < 0 ? Number.POSITIVE_INFINITY : factor;
}

/** Whether delamination does not begin at any factor from 0 to `factor`: true only if `delaminationFactor` gives more. */
export function withstandsDelamination(
  held: Interlaminar,
  grown: Interlaminar,
  tensileStrength: number,
  shearStrength: number,
  factor: number,
): boolean {
  // The criterion is convex in the factor: what both ends withstand, all between withstands.
  return (
    staysClosed(held, tensileStrength, shearStrength) &&
    closed(held.n + factor * grown.n, held.s + factor * grown.s, tensileStrength, shearStrength)
  );
}

/** Whether nothing delaminates at a stress. */
export const staysClosed = ({ n, s }: Interlaminar, tensileStrength: number, shearStrength: number): boolean =>
  closed(n, s, tensileStrength, shearStrength);

function closed(n: number, s: number, tensileStrength: number, shearStrength: number): boolean {
  const a = Math.max(0, n) * shearStrength;
  const b = s * tensileStrength;
  const limit = tensileStrength * shearStrength;
  return a * a + b * b < limit * limit;
}

/** Largest principal stress of `(n, t)` with shear s against a strength across the fibres. */
export function principalFactor(held: PointStress, grown: PointStress, strength: number): number {
  // One principal stress is at the strength where (1 - n)(1 - t) - s^2 = C + B f + A f^2 = 0, in units of the strength.
  const en = 1 - held.n / strength;
  const et = 1 - held.t / strength;
  const e0 = held.s / strength;
  const C = en * et - e0 * e0;
  // Below its strength in every direction (Sylvester): et > 0 follows.
  if (en <= 0 || C <= 0) return 0;
  const a = grown.n / strength;
  const b = grown.t / strength;
  const e1 = grown.s / strength;
  const A = a * b - e1 * e1;
  const B = -(a * et + b * en + 2 * e0 * e1);
  // Largest 1/f; both are real as the fixed state is below its strength (a pencil of symmetric matrices, one definite).
  const root = Math.sqrt(Math.max(0, B * B - 4 * A * C));
  const inverse = B <= 0 ? (root - B) / (2 * C) : (-2 * A) / (B + root);
  return inverse > 0 ? 1 / inverse : inverse <= 0 ? Number.POSITIVE_INFINITY : Number.NaN;
}

/** Whether no factor from 0 to `factor` brings the largest principal stress to the strength: true only if `principalFactor` gives more. */
export function withstandsSplitting(held: PointStress, grown: PointStress, strength: number, factor: number): boolean {
  // The largest principal stress is convex, too.
  return (
    staysWhole(held, strength) &&
    whole(held.n + factor * grown.n, held.t + factor * grown.t, held.s + factor * grown.s, strength)
  );
}

/** Whether nothing splits at a stress. */
export const staysWhole = ({ n, t, s }: PointStress, strength: number): boolean => whole(n, t, s, strength);

function whole(n: number, t: number, s: number, strength: number): boolean {
  const a = strength - n;
  return a > 0 && a * (strength - t) > s * s;
}

/** Uniaxial tension t, the hoop stress of a free edge, against a strength. */
export function tensionFactor(t0: number, t1: number, strength: number): number {
  if (t0 >= strength) return 0;
  if (t1 <= 0) return Number.POSITIVE_INFINITY;
  return (strength - t0) / t1;
}

/** Share of the strength that a pre-stress is taken to leave at least. */
const leastLeft = 1e-3;

/**
 * One over `tensionFactor` as a smooth function: negative where no factor reaches the strength, and bounded where the fixed part alone comes
 * within a thousandth of it.
 */
export function inverseTensionFactor(t0: number, t1: number, strength: number): number {
  return t1 / Math.max(strength - t0, leastLeft * strength);
}

/** Its rates by the stress that is held and by the stress that is scaled, 1/MPa. */
export function inverseTensionRates(t0: number, t1: number, strength: number): { held: number; scaled: number } {
  const left = strength - t0;
  const least = leastLeft * strength;
  return left > least ? { held: t1 / (left * left), scaled: 1 / left } : { held: 0, scaled: 1 / least };
}
