import { createFunctions, functionAt, halfSize, isReal, type RegularBasis, writeFunctions } from '../edge/index.js';
import { boundaryValues, valuesPerLoad } from './boundary-values.js';
import {
  addImage,
  addOther,
  addUp,
  type CauchySums,
  createCauchySums,
  createTakenEdge,
  type FieldEdge,
  type TakenEdge,
  takePlaces,
} from './cauchy-sums.js';

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

/**
 * The channel's own potentials are analytic outside the edge and vanish far away, so that Cauchy's formula gives them from their
 * boundary values; written as a quotient of two sums it keeps its accuracy up to the edge
 * (barycentric form, Ioakimidis, Papadakis & Perdios, BIT 31 (1991) 276-285; outside a curve: Barnett, Wu & Veerapaneni,
 * SIAM J. Sci. Comput. 37 (2015) B519-B542).
 */
export function createFillerField(basis: RegularBasis, count: number, loadCount: number): FillerField {
  const writeBoundaryValues = boundaryValues(count);
  const stride = valuesPerLoad * loadCount;
  const taken: TakenEdge[] = [];
  /** Of all edges, and of one more. */
  const here = createCauchySums(stride);
  const there = createCauchySums(stride);
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

  return {
    take(edges, coefficients, signs) {
      images = signs;
      while (taken.length < edges.length) taken.push(createTakenEdge(count, stride));
      taken.length = edges.length;
      for (let l = 0; l < loadCount; l++) writeTerms(basis.degree, coefficients[l]!, terms[l]!);
      for (let k = 0; k < edges.length; k++) {
        const edge = taken[k]!;
        takePlaces(edge, basis, edges[k]!);
        edge.hasImage = images !== undefined && !edges[k]!.onAxis;
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
        const edge = taken[k]!;
        if (k > 0) {
          addUp(edge, px, py, there);
          addOther(here, there, count);
        }
        if (edge.hasImage) {
          addUp(edge, -px, py, there);
          addImage(here, there, images!, count);
        }
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
