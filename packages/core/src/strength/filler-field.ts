import { createFunctions, functionAt, halfSize, isReal, type RegularBasis, writeFunctions } from '../edge/index.js';
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

/** Coefficients of phi and psi, `(re, im)` of each function by turns, from those of the regular basis (only the symmetric half where there are `2 degree`). */
function writeTerms(degree: number, coefficients: Float64Array, out: Float64Array): void {
  const half = halfSize(degree);
  for (let k = 1; k <= degree; k++) {
    const at = 2 * (k - 1);
    const real = isReal(k, true) ? 0 : 1;
    for (let place = 0; place < 2; place++) {
      out[2 * (at + place) + real] = coefficients[at + place]!;
      out[2 * (at + place) + 1 - real] = coefficients.length > half ? coefficients[half + at + place]! : 0;
    }
  }
}

/** Regular field of `terms` where the basis has the values `functions`. */
function regularPotentials(degree: number, terms: Float64Array, functions: Float64Array, out: Potentials): void {
  let slopeX = 0;
  let slopeY = 0;
  let bendX = 0;
  let bendY = 0;
  let psiX = 0;
  let psiY = 0;
  for (let k = 1, at = 0; k <= degree; k++, at += 4) {
    const f = functionAt(k);
    const firstX = functions[f + 2]!;
    const firstY = functions[f + 3]!;
    const secondX = functions[f + 4]!;
    const secondY = functions[f + 5]!;
    const phiX = terms[at]!;
    const phiY = terms[at + 1]!;
    slopeX += phiX * firstX - phiY * firstY;
    slopeY += phiX * firstY + phiY * firstX;
    bendX += phiX * secondX - phiY * secondY;
    bendY += phiX * secondY + phiY * secondX;
    psiX += terms[at + 2]! * firstX - terms[at + 3]! * firstY;
    psiY += terms[at + 2]! * firstY + terms[at + 3]! * firstX;
  }
  out.slopeX = slopeX;
  out.slopeY = slopeY;
  out.bendX = bendX;
  out.bendY = bendY;
  out.psiX = psiX;
  out.psiY = psiY;
}

/** Cauchy's sums of boundary values over an edge, and those of 1. */
interface CauchySums {
  readonly sums: Float64Array;
  lowerX: number;
  lowerY: number;
}

/** Adds Phi, Phi' and Psi at `sums[i]` and after, divided by a complex number. */
function addQuotient({ sums, lowerX, lowerY }: CauchySums, i: number, out: Potentials): void {
  const scale = lowerX * lowerX + lowerY * lowerY;
  out.slopeX += (sums[i]! * lowerX + sums[i + 1]! * lowerY) / scale;
  out.slopeY += (sums[i + 1]! * lowerX - sums[i]! * lowerY) / scale;
  out.bendX += (sums[i + 2]! * lowerX + sums[i + 3]! * lowerY) / scale;
  out.bendY += (sums[i + 3]! * lowerX - sums[i + 2]! * lowerY) / scale;
  out.psiX += (sums[i + 4]! * lowerX + sums[i + 5]! * lowerY) / scale;
  out.psiY += (sums[i + 5]! * lowerX - sums[i + 4]! * lowerY) / scale;
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
  const functions = createFunctions(basis.degree);
  writeFunctions(basis, localX, localY, 2, functions);
  regularPotentials(basis.degree, terms, functions, shared);
  stressOf(shared, localX, localY, out);
}

const shared = noPotentials();

/** An edge as a field takes it. */
export interface FieldEdge {
  readonly nodes: CurveNodes;
  readonly slopes: readonly Float64Array[];
  readonly inner: { readonly x: number; readonly y: number };
  /** It has no image but itself. */
  readonly onAxis: boolean;
}

/** The fields of several loads around a solved channel, inside the control contour; buffers for outlines of one node count. */
export interface FillerField {
  /**
   * Takes the loads' solutions: of each edge derivatives of phi along the curve parameter at the nodes and a point well inside (mm), and the regular coefficients, one
   * array per load. `images`: there are other edges, mirror images in x = 0 of those that do not lie on it, where a load is the same
   * (1) or has the other sign (-1).
   */
  take(edges: readonly FieldEdge[], coefficients: readonly Float64Array[], images?: readonly (1 | -1)[]): void;
  /** Stress of every load at a place (mm) between edge and contour, up to the edge itself but for its nodes. */
  stressAt(x: number, y: number, out: readonly PlaneStress[]): void;
}

/** Values of one load at a node: Phi, Phi' and Psi, in the end the channel's own part of them. */
const valuesPerLoad = 6;

/** Nodes of an edge in local coordinates, `(x, y)` each, and the steps `t' h` there. */
interface LocalEdge {
  readonly places: Float64Array;
  readonly weights: Float64Array;
}

/** An edge with its values, node by node and load by load. */
interface TakenEdge extends LocalEdge {
  /** `t' h / (t - inner)`. */
  readonly innerWeights: Float64Array;
  readonly values: Float64Array;
  innerX: number;
  innerY: number;
  /** There is another edge, its mirror image. */
  hasImage: boolean;
}

/** Writes Phi, Phi' and Psi of one load at every node from the derivative of phi along the curve parameter: from `first` on, node by node in strides. */
type WriteBoundaryValues = (
  edge: LocalEdge,
  slope: Float64Array,
  values: Float64Array,
  first: number,
  stride: number,
) => void;

function boundaryValues(count: number): WriteBoundaryValues {
  const rule = trigonometricRule(count);
  /** Phi and its derivative along the parameter. */
  const whole = new Float64Array(2 * count);
  const wholeSlope = new Float64Array(2 * count);
  return ({ places, weights }, slope, values, first, stride) => {
    for (let j = 0; j < count; j++) {
      const re = 2 * j;
      const im = re + 1;
      const dx = weights[re]!;
      const dy = weights[im]!;
      const squared = dx * dx + dy * dy;
      whole[re] = (slope[re]! * dx + slope[im]! * dy) / squared;
      whole[im] = (slope[im]! * dx - slope[re]! * dy) / squared;
    }
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
      const at = j * stride + first;
      values[at] = whole[re]!;
      values[at + 1] = whole[im]!;
      values[at + 2] = bendX;
      values[at + 3] = bendY;
      values[at + 4] = psiX;
      values[at + 5] = psiY;
    }
  };
}

/**
 * The channel's own potentials are analytic outside the edge and vanish far away, so that Cauchy's formula gives them from their
 * boundary values; written as a quotient of two sums it keeps its accuracy up to the edge
 * (barycentric form, Ioakimidis, Papadakis & Perdios, BIT 31 (1991) 276-285; outside a curve: Barnett, Wu & Veerapaneni,
 * SIAM J. Sci. Comput. 37 (2015) B519-B542).
 */
export function createFillerField(basis: RegularBasis, count: number, loadCount: number): FillerField {
  const writeBoundaryValues = boundaryValues(count);
  const stride = valuesPerLoad * loadCount;
  const createdEdge = (): TakenEdge => ({
    ...{ places: new Float64Array(2 * count), weights: new Float64Array(2 * count) },
    innerWeights: new Float64Array(2 * count),
    values: new Float64Array(stride * count),
    ...{ innerX: 0, innerY: 0, hasImage: false },
  });
  const taken: TakenEdge[] = [];
  /** Of all edges, and of one more. */
  const here: CauchySums = { sums: new Float64Array(stride), lowerX: 0, lowerY: 0 };
  const there: CauchySums = { sums: new Float64Array(stride), lowerX: 0, lowerY: 0 };
  const regular = noPotentials();
  const functions = createFunctions(basis.degree);
  const terms = Array.from({ length: loadCount }, () => new Float64Array(4 * basis.degree));
  let images: readonly (1 | -1)[] | undefined;

  /** Leaves the channels' own part. */
  const takeRegularAway = ({ places, values }: TakenEdge): void => {
    for (let j = 0, at = 0; j < count; j++) {
      writeFunctions(basis, places[2 * j]!, places[2 * j + 1]!, 2, functions);
      for (let load = 0; load < loadCount; load++, at += valuesPerLoad) {
        regularPotentials(basis.degree, terms[load]!, functions, regular);
        values[at]! -= regular.slopeX;
        values[at + 1]! -= regular.slopeY;
        values[at + 2]! -= regular.bendX;
        values[at + 3]! -= regular.bendY;
        values[at + 4]! -= regular.psiX;
        values[at + 5]! -= regular.psiY;
      }
    }
  };

  /** Sums over an edge at a local place. */
  const addUp = (edge: TakenEdge, px: number, py: number, out: CauchySums): void => {
    const { places, weights, innerWeights, values, innerX, innerY } = edge;
    const { sums } = out;
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
    out.lowerX = fromX * belowX - fromY * belowY;
    out.lowerY = fromX * belowY + fromY * belowX;
  };

  /** The lower part of each edge is `-i count` but near it, so that the product of all over that serves near each. */
  const multiplyLower = (lowerX: number, lowerY: number): void => {
    const x = lowerX * here.lowerX - lowerY * here.lowerY;
    const y = lowerX * here.lowerY + lowerY * here.lowerX;
    here.lowerX = -y / count;
    here.lowerY = x / count;
  };

  /** Adds the image of an edge: its sums are `-+ conj` of those of the edge at the image of the place. */
  const addImage = (edge: TakenEdge, px: number, py: number): void => {
    addUp(edge, -px, py, there);
    for (let i = 0; i < stride; i += 2) {
      // Phi and Psi of a symmetric load are conjugate at images, Phi' has the other sign.
      const sign = images![Math.floor(i / valuesPerLoad)]! * (i % valuesPerLoad === 2 ? -1 : 1);
      here.sums[i]! -= sign * there.sums[i]!;
      here.sums[i + 1]! += sign * there.sums[i + 1]!;
    }
    multiplyLower(-there.lowerX, there.lowerY);
  };

  const addOther = (edge: TakenEdge, px: number, py: number): void => {
    addUp(edge, px, py, there);
    for (let i = 0; i < stride; i++) here.sums[i]! += there.sums[i]!;
    multiplyLower(there.lowerX, there.lowerY);
  };

  /** Takes places and directions of an edge. */
  const takeEdge = (edge: TakenEdge, { nodes, inner, onAxis }: FieldEdge): void => {
    const { places, weights, innerWeights } = edge;
    const { length } = basis;
    edge.innerX = (inner.x - basis.centreX) / length;
    edge.innerY = (inner.y - basis.centreY) / length;
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
      const ex = x - edge.innerX;
      const ey = y - edge.innerY;
      const distance2 = ex * ex + ey * ey;
      innerWeights[re] = (dx * ex + dy * ey) / distance2;
      innerWeights[im] = (dy * ex - dx * ey) / distance2;
    }
    edge.hasImage = images !== undefined && !onAxis;
  };

  return {
    take(edges, coefficients, signs) {
      images = signs;
      while (taken.length < edges.length) taken.push(createdEdge());
      taken.length = edges.length;
      for (let l = 0; l < loadCount; l++) writeTerms(basis.degree, coefficients[l]!, terms[l]!);
      for (let k = 0; k < edges.length; k++) {
        const edge = taken[k]!;
        takeEdge(edge, edges[k]!);
        for (let l = 0; l < loadCount; l++)
          writeBoundaryValues(edge, edges[k]!.slopes[l]!, edge.values, valuesPerLoad * l, stride);
        takeRegularAway(edge);
      }
    },
    stressAt(x, y, out) {
      const px = (x - basis.centreX) / basis.length;
      const py = (y - basis.centreY) / basis.length;
      addUp(taken[0]!, px, py, here);
      for (let k = 0; k < taken.length; k++) {
        if (k > 0) addOther(taken[k]!, px, py);
        if (taken[k]!.hasImage) addImage(taken[k]!, px, py);
      }
      writeFunctions(basis, px, py, 2, functions);
      for (let l = 0; l < loadCount; l++) {
        const i = valuesPerLoad * l;
        regularPotentials(basis.degree, terms[l]!, functions, regular);
        addQuotient(here, i, regular);
        stressOf(regular, px, py, out[l]!);
      }
    },
  };
}
