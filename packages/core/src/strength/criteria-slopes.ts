import type { PointStress } from './criteria.js';

/** Rates of one over a load factor by the stress that is held and by the stress that grows, 1/MPa. */
export interface InverseSlopes {
  readonly held: PointStress;
  readonly grown: PointStress;
}

export const createInverseSlopes = (): InverseSlopes => ({ held: { n: 0, t: 0, s: 0 }, grown: { n: 0, t: 0, s: 0 } });

/** A criterion with what it holds a stress against, MPa. */
export interface PlaceCriterion {
  readonly criterion: 'delamination' | 'splitting' | 'kinking';
  readonly tension: number;
  readonly shear: number;
}

/**
 * Writes the rates of `1/factor`, the factor of a criterion `F(held + factor grown) = 1` (derived here by differentiating that):
 * `d(1/factor) = F' (dheld + factor dgrown) / (factor^2 F' grown)`, F' the gradient at failure. 0 where the factor is 0 or Infinity.
 */
export function writeInverseSlopes(
  criterion: PlaceCriterion,
  held: PointStress,
  grown: PointStress,
  factor: number,
  out: InverseSlopes,
): void {
  const gradient = out.held;
  writeGradient(criterion, held.n + factor * grown.n, held.t + factor * grown.t, held.s + factor * grown.s, gradient);
  const rise = gradient.n * grown.n + gradient.t * grown.t + gradient.s * grown.s;
  const scale = factor > 0 && factor < Number.POSITIVE_INFINITY ? 1 / (factor * factor * rise) : 0;
  for (const of of ['n', 't', 's'] as const) {
    const rate = scale === 0 ? 0 : scale * gradient[of];
    out.held[of] = rate;
    out.grown[of] = scale === 0 ? 0 : factor * rate;
  }
}

/** Direction in which a criterion rises at a stress; its length does not matter. */
function writeGradient(
  { criterion, tension, shear }: PlaceCriterion,
  n: number,
  t: number,
  s: number,
  out: PointStress,
): void {
  if (criterion === 'splitting') {
    const half = (n - t) / 2;
    const radius = Math.sqrt(half * half + s * s);
    out.n = radius > 0 ? (1 + half / radius) / 2 : 1 / 2;
    out.t = 1 - out.n;
    out.s = radius > 0 ? s / radius : 0;
    return;
  }
  const delaminates = criterion === 'delamination';
  out.n = delaminates ? Math.max(0, n) / (tension * tension) : 0;
  out.t = delaminates ? 0 : -1;
  out.s = delaminates ? s / (shear * shear) : 0;
}
