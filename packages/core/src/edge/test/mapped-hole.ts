import { type CurveNodes, createCurveNodes, nodeParameter } from '../../outline/nodes.js';
import type { FarField } from './far-field.js';

/** A hole whose outside is the conformal image `size (zeta + eps zeta^-n)` of the unit circle's. mm */
export interface MappedHole {
  readonly eps: number;
  readonly n: number;
  readonly size?: number;
}

/** The hole at equal steps of the angle of zeta. */
export function mappedNodes({ eps, n, size = 1 }: MappedHole, count: number): CurveNodes {
  const nodes = createCurveNodes(count);
  for (let j = 0; j < count; j++) {
    const s = nodeParameter(j, count);
    nodes.x[j] = size * (Math.cos(s) + eps * Math.cos(n * s));
    nodes.y[j] = size * (Math.sin(s) - eps * Math.sin(n * s));
    nodes.dx[j] = size * (-Math.sin(s) - eps * n * Math.sin(n * s));
    nodes.dy[j] = size * (Math.cos(s) - eps * n * Math.cos(n * s));
    nodes.ddx[j] = size * (-Math.cos(s) - eps * n * n * Math.cos(n * s));
    nodes.ddy[j] = size * (-Math.sin(s) + eps * n * n * Math.sin(n * s));
  }
  return nodes;
}

/**
 * Exact hoop stress at the angle `s` of zeta, by Muskhelishvili's method for polynomial maps (Some Basic Problems, part V;
 * coefficients derived here). Outside, `phi = g zeta + sum_k a_k zeta^-k`; the negative powers in
 * `phi + omega / conj(omega') conj(phi') + conj(psi) = 0` on the unit circle give, with `omega = zeta + eps zeta^-n`,
 *
 *     a_m = -eps g [m = n] + eps (n - 1 - m) conj(a_(n-1-m)) - conj(g') [m = 1]      m = 1..n
 *
 * and `hoop = 4 Re(phi' / omega')`.
 */
export function mappedHoop({ eps, n }: MappedHole, { sx, sy, txy }: FarField): (s: number) => number {
  const g = (sx + sy) / 4;
  const re = new Float64Array(n + 1);
  const im = new Float64Array(n + 1);
  // The partner of m is n - 1 - m; repeated insertion converges (a factor of at most eps^2 n^2 / 4 each time).
  for (let round = 0; round < 200; round++)
    for (let m = 1; m <= n; m++) {
      const partner = n - 1 - m;
      const factor = partner > 0 ? eps * partner : 0;
      re[m] = (m === n ? -eps * g : 0) + (factor === 0 ? 0 : factor * re[partner]!) - (m === 1 ? (sy - sx) / 2 : 0);
      im[m] = (factor === 0 ? 0 : -factor * im[partner]!) + (m === 1 ? txy : 0);
    }
  return (s) => {
    // phi' zeta and omega' zeta: the common factor drops out of the quotient.
    let top = g * Math.cos(s);
    let topIm = g * Math.sin(s);
    for (let k = 1; k <= n; k++) {
      const [c, d] = [Math.cos(k * s), Math.sin(k * s)];
      top -= k * (re[k]! * c + im[k]! * d);
      topIm -= k * (im[k]! * c - re[k]! * d);
    }
    const bottom = Math.cos(s) - n * eps * Math.cos(n * s);
    const bottomIm = Math.sin(s) + n * eps * Math.sin(n * s);
    return (4 * (top * bottom + topIm * bottomIm)) / (bottom * bottom + bottomIm * bottomIm);
  };
}

/** Largest value of a function of period 2 pi: a fine scan, then golden section (Kiefer 1953). */
export function largestOf(value: (s: number) => number): number {
  const steps = 4000;
  const at = (k: number) => (2 * Math.PI * k) / steps;
  let best = 0;
  for (let k = 1; k < steps; k++) if (value(at(k)) > value(at(best))) best = k;
  const golden = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [at(best - 1), at(best + 1)];
  while (high - low > 1e-9) {
    const left = high - golden * (high - low);
    const right = low + golden * (high - low);
    if (value(left) > value(right)) high = right;
    else low = left;
  }
  return value((low + high) / 2);
}
