import { halfSize, isReal, type RegularBasis } from '../edge/index.js';
import { trigonometricRule } from '../edge/trigonometric.js';
import type { CurveNodes } from '../outline/index.js';

/** In-plane stress at a point, MPa. */
export interface PlaneStress {
  xx: number;
  yy: number;
  xy: number;
}

/** `Phi = phi'`, its derivative and `Psi = psi'` at one point (Muskhelishvili), MPa and MPa per length of the basis. */
interface Potentials {
  slopeX: number;
  slopeY: number;
  bendX: number;
  bendY: number;
  psiX: number;
  psiY: number;
}

const noPotentials = (): Potentials => ({ slopeX: 0, slopeY: 0, bendX: 0, bendY: 0, psiX: 0, psiY: 0 });

/** Regular field of `coefficients` (order of `RegularBasis`; only the symmetric half where there are `2 degree`) at local (x, y). */
function regularPotentials(degree: number, coefficients: Float64Array, x: number, y: number, out: Potentials): void {
  const half = halfSize(degree);
  out.slopeX = 0;
  out.slopeY = 0;
  out.bendX = 0;
  out.bendY = 0;
  out.psiX = 0;
  out.psiY = 0;
  // zeta^(k-2) and zeta^(k-1).
  let beforeX = 0;
  let beforeY = 0;
  let powerX = 1;
  let powerY = 0;
  for (let k = 1; k <= degree; k++) {
    const first = coefficients[2 * (k - 1)]!;
    const second = coefficients[2 * (k - 1) + 1]!;
    const other = coefficients.length > half ? coefficients[half + 2 * (k - 1)]! : 0;
    const another = coefficients.length > half ? coefficients[half + 2 * (k - 1) + 1]! : 0;
    const real = isReal(k, true);
    const phiX = k * (real ? first : other);
    const phiY = k * (real ? other : first);
    const psiX = k * (real ? second : another);
    const psiY = k * (real ? another : second);
    out.slopeX += phiX * powerX - phiY * powerY;
    out.slopeY += phiX * powerY + phiY * powerX;
    out.bendX += (k - 1) * (phiX * beforeX - phiY * beforeY);
    out.bendY += (k - 1) * (phiX * beforeY + phiY * beforeX);
    out.psiX += psiX * powerX - psiY * powerY;
    out.psiY += psiX * powerY + psiY * powerX;
    beforeX = powerX;
    beforeY = powerY;
    powerX = beforeX * x - beforeY * y;
    powerY = beforeX * y + beforeY * x;
  }
}

/** `sxx + syy = 4 Re Phi`, `syy - sxx + 2 i sxy = 2 (conj(z) Phi' + Psi)`. */
function stressOf(p: Potentials, x: number, y: number, out: PlaneStress): void {
  const mean = 2 * p.slopeX;
  const difference = x * p.bendX + y * p.bendY + p.psiX;
  out.xx = mean - difference;
  out.yy = mean + difference;
  out.xy = x * p.bendY - y * p.bendX + p.psiY;
}

/** Stress of a regular field alone: the undisturbed filler inside the control contour. Place in mm. */
export function regularStress(
  basis: RegularBasis,
  coefficients: Float64Array,
  x: number,
  y: number,
  out: PlaneStress,
): void {
  const localX = (x - basis.centreX) / basis.length;
  const localY = (y - basis.centreY) / basis.length;
  regularPotentials(basis.degree, coefficients, localX, localY, shared);
  stressOf(shared, localX, localY, out);
}

const shared = noPotentials();

/** The field around a solved channel, inside the control contour; buffers for outlines of one node count. */
export interface FillerField {
  /**
   * Takes one load's solution: derivatives of phi along the curve parameter at the nodes, and the regular coefficients.
   * `inner` (mm) is a point well inside the outline.
   */
  take(
    nodes: CurveNodes,
    slope: Float64Array,
    coefficients: Float64Array,
    inner: { readonly x: number; readonly y: number },
  ): void;
  /** Stress at a place (mm) between edge and contour, up to the edge itself but for its nodes. */
  stressAt(x: number, y: number, out: PlaneStress): void;
}

/**
 * The channel's own potentials are analytic outside the edge and vanish far away, so that Cauchy's formula gives them from their
 * boundary values; written as a quotient of two sums it keeps its accuracy up to the edge
 * (barycentric form, Ioakimidis, Papadakis & Perdios, BIT 31 (1991) 276-285; outside a curve: Barnett, Wu & Veerapaneni,
 * SIAM J. Sci. Comput. 37 (2015) B519-B542).
 */
export function createFillerField(basis: RegularBasis, count: number): FillerField {
  const rule = trigonometricRule(count);
  const complex = () => new Float64Array(2 * count);
  const places = complex();
  /** Boundary values of Phi, of the channel's own part of Phi, Phi' and Psi, and a derivative along the parameter. */
  const whole = complex();
  const wholeSlope = complex();
  const slopes = complex();
  const bends = complex();
  const psis = complex();
  /** `t' h` and `t' h / (t - inner)`. */
  const weights = complex();
  const innerWeights = complex();
  const regular = noPotentials();
  const own = noPotentials();
  let taken: Float64Array = new Float64Array(0);
  let innerX = 0;
  let innerY = 0;

  return {
    take(nodes, slope, coefficients, inner) {
      const { length } = basis;
      taken = coefficients;
      innerX = (inner.x - basis.centreX) / length;
      innerY = (inner.y - basis.centreY) / length;
      for (let j = 0; j < count; j++) {
        const [re, im] = [2 * j, 2 * j + 1];
        const x = (nodes.x[j]! - basis.centreX) / length;
        const y = (nodes.y[j]! - basis.centreY) / length;
        const dx = nodes.dx[j]! / length;
        const dy = nodes.dy[j]! / length;
        const squared = dx * dx + dy * dy;
        places[re] = x;
        places[im] = y;
        weights[re] = dx;
        weights[im] = dy;
        const ex = x - innerX;
        const ey = y - innerY;
        const distance2 = ex * ex + ey * ey;
        innerWeights[re] = (dx * ex + dy * ey) / distance2;
        innerWeights[im] = (dy * ex - dx * ey) / distance2;
        whole[re] = (slope[re]! * dx + slope[im]! * dy) / squared;
        whole[im] = (slope[im]! * dx - slope[re]! * dy) / squared;
      }
      rule.differentiate(whole, wholeSlope);
      for (let j = 0; j < count; j++) {
        const [re, im] = [2 * j, 2 * j + 1];
        const x = places[re]!;
        const y = places[im]!;
        const dx = weights[re]!;
        const dy = weights[im]!;
        const squared = dx * dx + dy * dy;
        const bendX = (wholeSlope[re]! * dx + wholeSlope[im]! * dy) / squared;
        const bendY = (wholeSlope[im]! * dx - wholeSlope[re]! * dy) / squared;
        // On the free edge psi = const - conj(phi) - conj(t) Phi: Psi = -(conj(phi_s) + conj(t') Phi) / t' - conj(t) Phi'.
        const rightX = slope[re]! + dx * whole[re]! + dy * whole[im]!;
        const rightY = -slope[im]! + dx * whole[im]! - dy * whole[re]!;
        const psiX = -(rightX * dx + rightY * dy) / squared - (x * bendX + y * bendY);
        const psiY = -(rightY * dx - rightX * dy) / squared - (x * bendY - y * bendX);
        regularPotentials(basis.degree, coefficients, x, y, regular);
        slopes[re] = whole[re]! - regular.slopeX;
        slopes[im] = whole[im]! - regular.slopeY;
        bends[re] = bendX - regular.bendX;
        bends[im] = bendY - regular.bendY;
        psis[re] = psiX - regular.psiX;
        psis[im] = psiY - regular.psiY;
      }
    },
    stressAt(x, y, out) {
      const px = (x - basis.centreX) / basis.length;
      const py = (y - basis.centreY) / basis.length;
      own.slopeX = 0;
      own.slopeY = 0;
      own.bendX = 0;
      own.bendY = 0;
      own.psiX = 0;
      own.psiY = 0;
      let belowX = 0;
      let belowY = 0;
      for (let j = 0; j < 2 * count; j += 2) {
        const ex = places[j]! - px;
        const ey = places[j + 1]! - py;
        const distance2 = ex * ex + ey * ey;
        const gx = ex / distance2;
        const gy = -ey / distance2;
        const wx = weights[j]! * gx - weights[j + 1]! * gy;
        const wy = weights[j]! * gy + weights[j + 1]! * gx;
        own.slopeX += slopes[j]! * wx - slopes[j + 1]! * wy;
        own.slopeY += slopes[j]! * wy + slopes[j + 1]! * wx;
        own.bendX += bends[j]! * wx - bends[j + 1]! * wy;
        own.bendY += bends[j]! * wy + bends[j + 1]! * wx;
        own.psiX += psis[j]! * wx - psis[j + 1]! * wy;
        own.psiY += psis[j]! * wy + psis[j + 1]! * wx;
        belowX += innerWeights[j]! * gx - innerWeights[j + 1]! * gy;
        belowY += innerWeights[j]! * gy + innerWeights[j + 1]! * gx;
      }
      // The quotient's lower part: (z - inner) sum t' h / ((t - inner)(t - z)).
      const fromX = px - innerX;
      const fromY = py - innerY;
      const lowerX = fromX * belowX - fromY * belowY;
      const lowerY = fromX * belowY + fromY * belowX;
      const scale = lowerX * lowerX + lowerY * lowerY;
      regularPotentials(basis.degree, taken, px, py, regular);
      regular.slopeX += (own.slopeX * lowerX + own.slopeY * lowerY) / scale;
      regular.slopeY += (own.slopeY * lowerX - own.slopeX * lowerY) / scale;
      regular.bendX += (own.bendX * lowerX + own.bendY * lowerY) / scale;
      regular.bendY += (own.bendY * lowerX - own.bendX * lowerY) / scale;
      regular.psiX += (own.psiX * lowerX + own.psiY * lowerY) / scale;
      regular.psiY += (own.psiY * lowerX - own.psiX * lowerY) / scale;
      stressOf(regular, px, py, out);
    },
  };
}
