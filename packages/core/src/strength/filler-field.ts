import { halfSize, isReal, type RegularBasis } from '../edge/index.js';
import { trigonometricRule } from '../linear/index.js';
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

/** Coefficients of Phi and Psi, `(re, im)` of each power by turns, from those of the regular basis (only the symmetric half where there are `2 degree`). */
function writeTerms(degree: number, coefficients: Float64Array, out: Float64Array): void {
  const half = halfSize(degree);
  for (let k = 1; k <= degree; k++) {
    const at = 2 * (k - 1);
    const real = isReal(k, true) ? 0 : 1;
    for (let place = 0; place < 2; place++) {
      out[2 * (at + place) + real] = k * coefficients[at + place]!;
      out[2 * (at + place) + 1 - real] = coefficients.length > half ? k * coefficients[half + at + place]! : 0;
    }
  }
}

/** Regular field of `terms` at local (x, y), by Horner's rule. */
function regularPotentials(degree: number, terms: Float64Array, x: number, y: number, out: Potentials): void {
  let slopeX = 0;
  let slopeY = 0;
  let bendX = 0;
  let bendY = 0;
  let psiX = 0;
  let psiY = 0;
  for (let at = 4 * (degree - 1); at >= 0; at -= 4) {
    const nextX = bendX * x - bendY * y + slopeX;
    bendY = bendX * y + bendY * x + slopeY;
    bendX = nextX;
    const slope = slopeX * x - slopeY * y + terms[at]!;
    slopeY = slopeX * y + slopeY * x + terms[at + 1]!;
    slopeX = slope;
    const psi = psiX * x - psiY * y + terms[at + 2]!;
    psiY = psiX * y + psiY * x + terms[at + 3]!;
    psiX = psi;
  }
  out.slopeX = slopeX;
  out.slopeY = slopeY;
  out.bendX = bendX;
  out.bendY = bendY;
  out.psiX = psiX;
  out.psiY = psiY;
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
  const terms = new Float64Array(4 * basis.degree);
  writeTerms(basis.degree, coefficients, terms);
  regularPotentials(basis.degree, terms, localX, localY, shared);
  stressOf(shared, localX, localY, out);
}

const shared = noPotentials();

/** The fields of several loads around a solved channel, inside the control contour; buffers for outlines of one node count. */
export interface FillerField {
  /**
   * Takes the loads' solutions: derivatives of phi along the curve parameter at the nodes, and the regular coefficients, one
   * array per load. `inner` (mm) is a point well inside the outline.
   */
  take(
    nodes: CurveNodes,
    slopes: readonly Float64Array[],
    coefficients: readonly Float64Array[],
    inner: { readonly x: number; readonly y: number },
  ): void;
  /** Stress of every load at a place (mm) between edge and contour, up to the edge itself but for its nodes. */
  stressAt(x: number, y: number, out: readonly PlaneStress[]): void;
}

/** Values of one load at a node: the channel's own part of Phi, Phi' and Psi. */
const valuesPerLoad = 6;

/**
 * The channel's own potentials are analytic outside the edge and vanish far away, so that Cauchy's formula gives them from their
 * boundary values; written as a quotient of two sums it keeps its accuracy up to the edge
 * (barycentric form, Ioakimidis, Papadakis & Perdios, BIT 31 (1991) 276-285; outside a curve: Barnett, Wu & Veerapaneni,
 * SIAM J. Sci. Comput. 37 (2015) B519-B542).
 */
export function createFillerField(basis: RegularBasis, count: number, loadCount: number): FillerField {
  const rule = trigonometricRule(count);
  const complex = () => new Float64Array(2 * count);
  const places = complex();
  /** Boundary values of Phi and a derivative along the parameter, of one load. */
  const whole = complex();
  const wholeSlope = complex();
  /** Node by node, load by load. */
  const stride = valuesPerLoad * loadCount;
  const values = new Float64Array(stride * count);
  const sums = new Float64Array(stride);
  /** `t' h` and `t' h / (t - inner)`. */
  const weights = complex();
  const innerWeights = complex();
  const regular = noPotentials();
  const terms = Array.from({ length: loadCount }, () => new Float64Array(4 * basis.degree));
  let innerX = 0;
  let innerY = 0;

  const takeLoad = (load: number, slope: Float64Array, coefficients: Float64Array): void => {
    for (let j = 0; j < count; j++) {
      const re = 2 * j;
      const im = re + 1;
      const dx = weights[re]!;
      const dy = weights[im]!;
      const squared = dx * dx + dy * dy;
      whole[re] = (slope[re]! * dx + slope[im]! * dy) / squared;
      whole[im] = (slope[im]! * dx - slope[re]! * dy) / squared;
    }
    writeTerms(basis.degree, coefficients, terms[load]!);
    rule.differentiate(whole, wholeSlope);
    for (let j = 0; j < count; j++) {
      const re = 2 * j;
      const im = re + 1;
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
      regularPotentials(basis.degree, terms[load]!, x, y, regular);
      const at = j * stride + valuesPerLoad * load;
      values[at] = whole[re]! - regular.slopeX;
      values[at + 1] = whole[im]! - regular.slopeY;
      values[at + 2] = bendX - regular.bendX;
      values[at + 3] = bendY - regular.bendY;
      values[at + 4] = psiX - regular.psiX;
      values[at + 5] = psiY - regular.psiY;
    }
  };

  return {
    take(nodes, slopes, coefficients, inner) {
      const { length } = basis;
      innerX = (inner.x - basis.centreX) / length;
      innerY = (inner.y - basis.centreY) / length;
      for (let j = 0; j < count; j++) {
        const re = 2 * j;
        const im = re + 1;
        const x = (nodes.x[j]! - basis.centreX) / length;
        const y = (nodes.y[j]! - basis.centreY) / length;
        const dx = nodes.dx[j]! / length;
        const dy = nodes.dy[j]! / length;
        places[re] = x;
        places[im] = y;
        weights[re] = dx;
        weights[im] = dy;
        const ex = x - innerX;
        const ey = y - innerY;
        const distance2 = ex * ex + ey * ey;
        innerWeights[re] = (dx * ex + dy * ey) / distance2;
        innerWeights[im] = (dy * ex - dx * ey) / distance2;
      }
      for (let l = 0; l < loadCount; l++) takeLoad(l, slopes[l]!, coefficients[l]!);
    },
    stressAt(x, y, out) {
      const px = (x - basis.centreX) / basis.length;
      const py = (y - basis.centreY) / basis.length;
      sums.fill(0);
      let belowX = 0;
      let belowY = 0;
      for (let j = 0, at = 0; j < 2 * count; j += 2) {
        const ex = places[j]! - px;
        const ey = places[j + 1]! - py;
        const inverse = 1 / (ex * ex + ey * ey);
        const gx = ex * inverse;
        const gy = -ey * inverse;
        const wx = weights[j]! * gx - weights[j + 1]! * gy;
        const wy = weights[j]! * gy + weights[j + 1]! * gx;
        for (let i = 0; i < stride; i += 2, at += 2) {
          const re = values[at]!;
          const im = values[at + 1]!;
          sums[i]! += re * wx - im * wy;
          sums[i + 1]! += re * wy + im * wx;
        }
        belowX += innerWeights[j]! * gx - innerWeights[j + 1]! * gy;
        belowY += innerWeights[j]! * gy + innerWeights[j + 1]! * gx;
      }
      // The quotient's lower part: (z - inner) sum t' h / ((t - inner)(t - z)).
      const fromX = px - innerX;
      const fromY = py - innerY;
      const lowerX = fromX * belowX - fromY * belowY;
      const lowerY = fromX * belowY + fromY * belowX;
      const scale = lowerX * lowerX + lowerY * lowerY;
      for (let l = 0; l < loadCount; l++) {
        const i = valuesPerLoad * l;
        regularPotentials(basis.degree, terms[l]!, px, py, regular);
        regular.slopeX += (sums[i]! * lowerX + sums[i + 1]! * lowerY) / scale;
        regular.slopeY += (sums[i + 1]! * lowerX - sums[i]! * lowerY) / scale;
        regular.bendX += (sums[i + 2]! * lowerX + sums[i + 3]! * lowerY) / scale;
        regular.bendY += (sums[i + 3]! * lowerX - sums[i + 2]! * lowerY) / scale;
        regular.psiX += (sums[i + 4]! * lowerX + sums[i + 5]! * lowerY) / scale;
        regular.psiY += (sums[i + 5]! * lowerX - sums[i + 4]! * lowerY) / scale;
        stressOf(regular, px, py, out[l]!);
      }
    },
  };
}
