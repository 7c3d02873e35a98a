import { createFunctions, functionAt, halfSize, isReal, responseBlocks, writeFunctions } from '../edge/index.js';
import type { ReducedModel } from '../host/index.js';
import { byCount } from '../outline/index.js';
import type { ActingLoad, CaseSlopes, SolvedEdge } from '../stress/index.js';
import {
  createEdgeFunctional,
  createHalfwayPoints,
  type EdgeFunctional,
  type EdgePoints,
  foldNodes,
  type HalfwayPoints,
} from './edge-functional.js';

/** Rates of the stress at places (which stay where they are) in the filler around a channel that moves. */
export interface FillerRates {
  /** Takes an edge and the slopes that were taken of it; both must stay as they are until the last `add`. */
  take(edge: SolvedEdge, slopes: CaseSlopes): void;
  /**
   * Adds to `out`, one to a motion from `at` on, the rates at a place (mm) of the stresses' weighted sum: `weights` are those of xx, yy and xy, load by
   * load. Off by 2e-7 two and a half spacings of the nodes off the edge, less
   * further away and more the nearer.
   */
  add(x: number, y: number, weights: Float64Array, out: Float64Array, at: number): void;
}

/**
 * With `phi` on a free edge the channel's own potentials at z outside are, by parts (derived here from Cauchy's formula; `e = t - z`),
 *
 *     Phi = -(1/2 pi i) oint phi dt / e^2,   conj(z) Phi' + Psi = (1/2 pi i) oint (conj(phi) dt - phi conj(dt)) / e^2 + 2 phi conj(e) dt / e^3,
 *
 * no derivative of phi in them: their trapezoidal sums, over the nodes and half way between, are differentiated by phi, by t and by t'. The regular field
 * follows the moments.
 */
export function createFillerRates(model: ReducedModel, loads: readonly ActingLoad[]): FillerRates {
  const { basis } = model;
  const half = halfSize(basis.degree);
  const functions = createFunctions(basis.degree);
  const coefficients = new Float64Array(2 * half);
  const moments = new Float64Array(2 * half);
  const buffersOf = byCount(
    (count): Buffers => ({
      own: createEdgeFunctional(count),
      between: createEdgeFunctional(count),
      halfway: createHalfwayPoints(count, loads.length),
    }),
  );
  let hand: Buffers;
  /** Whether the points half way are those of the edge. */
  let made = false;
  let edge: SolvedEdge;
  let slopes: CaseSlopes;

  /** Rates of the regular field: its coefficients answer the moments. */
  const addRegular = (l: number, weight: PotentialWeight, conjugate: readonly [number, number], row: Row): void => {
    const { response } = loads[l]!;
    if (response === undefined) return;
    writeCoefficientWeights(basis.degree, functions, weight, conjugate, coefficients);
    moments.fill(0);
    let first = 0;
    for (const block of responseBlocks(response, edge.mirror ? 'half' : 'whole')) {
      const order = Math.sqrt(block.length);
      for (let i = 0; i < order; i++) {
        const share = coefficients[first + i]!;
        for (let j = 0; j < order; j++) moments[first + j]! += share * block[i * order + j]!;
      }
      first += order;
    }
    const rates = slopes.loads.moments(l);
    for (let p = 0, at = 0; p < slopes.howMany; p++)
      for (let f = 0; f < first; f++, at++) row.out[row.at + p]! += moments[f]! * rates[at]!;
  };

  return {
    take(solved, taken) {
      edge = solved;
      slopes = taken;
      hand = buffersOf(solved.nodes.count);
      made = false;
    },
    add(x, y, weights, out, at) {
      const localX = (x - basis.centreX) / basis.length;
      const localY = (y - basis.centreY) / basis.length;
      writeFunctions(basis, localX, localY, 2, functions);
      const { own, between, halfway } = hand;
      if (!made) halfway.take(edge, slopes.loads.phi);
      made = true;
      const nodes = { nodes: edge.nodes, phi: slopes.loads.phi };
      const place = { x, y, length: basis.length };
      const row = { out, at };
      for (let l = 0; l < loads.length; l++) {
        const [xx, yy, xy] = [weights[3 * l]!, weights[3 * l + 1]!, weights[3 * l + 2]!];
        if (xx === 0 && yy === 0 && xy === 0) continue;
        const weight = { slope: 2 * (xx + yy), mixedX: yy - xx, mixedY: -xy };
        addRegular(l, weight, [localX, -localY], row);
        writeOwnFunctional(nodes, l, place, weight, own);
        writeOwnFunctional(halfway, l, place, weight, between);
        if (edge.mirror) foldNodes(own);
        halfway.spread(between, edge.mirror, own);
        addMotions(own, slopes, l, edge, row);
      }
    },
  };
}

interface Buffers {
  readonly own: EdgeFunctional;
  readonly between: EdgeFunctional;
  readonly halfway: HalfwayPoints;
}

/** Of a stress: `Re(slope Phi + (mixedX + i mixedY) (conj(z) Phi' + Psi))`. */
interface PotentialWeight {
  readonly slope: number;
  readonly mixedX: number;
  readonly mixedY: number;
}

interface Row {
  readonly out: Float64Array;
  readonly at: number;
}

/** Weights of the regular coefficients `[symmetric | antisymmetric]` of a stress where the basis has the values `functions`. */
function writeCoefficientWeights(
  degree: number,
  functions: Float64Array,
  { slope, mixedX, mixedY }: PotentialWeight,
  [conjugateX, conjugateY]: readonly [number, number],
  out: Float64Array,
): void {
  const half = halfSize(degree);
  const bendX = mixedX * conjugateX - mixedY * conjugateY;
  const bendY = mixedX * conjugateY + mixedY * conjugateX;
  for (let k = 1; k <= degree; k++) {
    const f = functionAt(k);
    const [firstX, firstY] = [functions[f + 2]!, functions[f + 3]!];
    const [secondX, secondY] = [functions[f + 4]!, functions[f + 5]!];
    const symmetricIsReal = isReal(k, true);
    for (let place = 0; place < 2; place++) {
      // Of phi: slope f' + mixed conj(z) f''; of psi: mixed f'.
      const re = place === 0 ? slope * firstX + bendX * secondX - bendY * secondY : mixedX * firstX - mixedY * firstY;
      const im = place === 0 ? slope * firstY + bendX * secondY + bendY * secondX : mixedX * firstY + mixedY * firstX;
      const at = 2 * (k - 1) + place;
      out[at] = symmetricIsReal ? re : -im;
      out[half + at] = symmetricIsReal ? -im : re;
    }
  }
}

/** Writes what the channel's own stress at a place is of points, which make half of a sum; velocities in mm. */
function writeOwnFunctional(
  { nodes: { count, x, y, dx, dy }, phi: phis }: EdgePoints,
  load: number,
  place: { readonly x: number; readonly y: number; readonly length: number },
  { slope: a, mixedX, mixedY }: PotentialWeight,
  out: EdgeFunctional,
): void {
  const phi = phis[load]!;
  const toLocal = 1 / place.length;
  const share = 1 / (2 * count);
  const perMm = share * toLocal;
  for (let j = 0; j < count; j++) {
    const ex = (x[j]! - place.x) * toLocal;
    const ey = (y[j]! - place.y) * toLocal;
    const tx = dx[j]! * toLocal;
    const ty = dy[j]! * toLocal;
    const p = phi[2 * j]!;
    const q = phi[2 * j + 1]!;
    // r = 1/e, its square and cube
    const inverse = 1 / (ex * ex + ey * ey);
    const rx = ex * inverse;
    const ry = -ey * inverse;
    const r2x = rx * rx - ry * ry;
    const r2y = 2 * rx * ry;
    const r3x = r2x * rx - r2y * ry;
    const r3y = r2x * ry + r2y * rx;
    // mixed r^2 and mixed r^3, and the latter times conj(e)
    const twice = 2 * (mixedX * r2x - mixedY * r2y);
    const mx = mixedX * r3x - mixedY * r3y;
    const my = mixedX * r3y + mixedY * r3x;
    const cx = mx * ex + my * ey;
    const cy = my * ex - mx * ey;
    // By phi: i a t' r^2 + 2 Re(mixed r^2) (t'_y + i t'_x) - 2 i mixed conj(e) t' r^3
    const ux = a * r2x - 2 * cx;
    const uy = a * r2y - 2 * cy;
    out.phi[2 * j] = share * (twice * ty - (ux * ty + uy * tx));
    out.phi[2 * j + 1] = share * (twice * tx + (ux * tx - uy * ty));
    // By t': the same with phi in the place of t', but for the real part's factor.
    out.turned[2 * j] = perMm * (-twice * q - (ux * q + uy * p));
    out.turned[2 * j + 1] = perMm * (-twice * p + (ux * p - uy * q));
    // By t, with v = phi t': -2 i a v r^3 - 4 Im(conj(phi) t') mixed r^3 + conj(-2 i mixed v r^3) + 6 i mixed conj(e) v r^4
    const vx = p * tx - q * ty;
    const vy = p * ty + q * tx;
    const turning = 4 * (p * ty - q * tx);
    const bx = 6 * (cx * rx - cy * ry) - 2 * a * r3x;
    const by = 6 * (cx * ry + cy * rx) - 2 * a * r3y;
    const kx = mx * vx - my * vy;
    const ky = mx * vy + my * vx;
    out.moved[2 * j] = perMm * (-(bx * vy + by * vx) - turning * mx + 2 * ky);
    out.moved[2 * j + 1] = perMm * (bx * vx - by * vy - turning * my + 2 * kx);
  }
}

/** Adds `Re` of a functional's products with the rates of phi and the velocities, motion by motion. */
function addMotions(
  { phi, moved, turned }: EdgeFunctional,
  { loads, motions, howMany }: CaseSlopes,
  load: number,
  { nodes: { count }, mirror }: SolvedEdge,
  { out, at }: Row,
): void {
  const rows = mirror ? count / 2 : count;
  const rates = loads.phiRates[load]!;
  for (let p = 0; p < howMany; p++) {
    let sum = 0;
    for (let j = 0, r = 2 * p * rows, m = p * count; j < 2 * rows; j += 2, r += 2, m++)
      sum +=
        phi[j]! * rates[r]! -
        phi[j + 1]! * rates[r + 1]! +
        moved[j]! * motions.x[m]! -
        moved[j + 1]! * motions.y[m]! +
        turned[j]! * motions.dx[m]! -
        turned[j + 1]! * motions.dy[m]!;
    out[at + p]! += sum;
  }
}
