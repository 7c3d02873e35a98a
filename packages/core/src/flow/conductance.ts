import { eliminate } from '../linear/index.js';
import type { CurveNodes } from '../outline/index.js';
import { assemble, assembleHalf, createDuctEquation } from './duct-equation.js';

/** What an outline is worth as a duct with laminar, fully developed flow. Filled again for every outline. */
export interface Conductance {
  /** mm2 */
  area: number;
  /** Wetted perimeter, mm. */
  perimeter: number;
  /** `4 area / perimeter`, mm. */
  hydraulicDiameter: number;
  /** `integral of w dA` with `lap w = -1`, mm4: flow rate = conductance * (pressure drop / length) / viscosity. */
  conductance: number;
  /**
   * Fanning friction factor times Reynolds number on the hydraulic diameter, `hydraulicDiameter^2 area / (2 conductance)`:
   * 16 for a circle (Shah & London, Laminar Flow Forced Convection in Ducts, 1978).
   */
  poiseuilleNumber: number;
}

/** Flow solver for outlines of one node count; the result object is written again by the next call. */
export type ConductanceSolver = (nodes: CurveNodes) => Readonly<Conductance>;

/** Mirror images that differ by less than this share of the outline's size are taken as exact. */
const mirrorTolerance = 1e-12;

/**
 * Makes the buffers for outlines of `count` nodes (even, at least 8); the solver that it returns allocates nothing.
 *
 * Velocity `w = u - |z|^2/4` with `u` harmonic and `|z|^2/4` on the edge; `u + iv` is the Cauchy integral of a real
 * density `m`, so that `(I + K1) m = |z|^2/2` with the kernel `Im(t'_j / (t_j - t_i))` (Muskhelishvili, Singular
 * Integral Equations, 1953, on the double layer). By Green's identity with `q = |z|^2/4`, `lap q = 1`,
 *
 *     int w dA = oint [|z|^2/8 - |z|^2/16] (x dy - y dx) + oint v dq.
 *
 * The last integral is a linear functional of `m`. With `R_ij = Re(t'_j / (t_j - t_i))`, the trapezoidal rule for
 * `v_i = -(h / 2 pi) [sum_j (m_j - m_i) R_ij + m'_i]`, and `sum m'_i q'_i = -sum m_i q''_i`, it is (derived here)
 *
 *     oint v dq = -(h^2 / 2 pi) sum_j m_j [sum_i (q'_i R_ij - q'_j R_ji) - q''_j],
 *
 * so that one division per pair of nodes serves matrix and functional, and no derivative of `m` is needed. Error falls
 * exponentially with `count` on smooth outlines. An outline that is mirror-symmetric in `x = 0` takes half the unknowns.
 */
export function createConductance(count: number): ConductanceSolver {
  if (!(count >= 8 && count % 2 === 0))
    throw new RangeError(`node count: expected an even number >= 8, received ${count}`);
  const equation = createDuctEquation(count);
  const { matrix, density, weight, x, y, slope } = equation;
  const result: Conductance = {
    area: Number.NaN,
    perimeter: Number.NaN,
    hydraulicDiameter: Number.NaN,
    conductance: Number.NaN,
    poiseuilleNumber: Number.NaN,
  };
  const h = (2 * Math.PI) / count;

  return (nodes) => {
    if (nodes.count !== count) throw new RangeError(`outline: expected ${count} nodes, received ${nodes.count}`);
    const mirrored = isMirrored(nodes);
    let middleX = 0;
    let middleY = 0;
    for (let j = 0; j < count; j++) {
      middleX += nodes.x[j]!;
      middleY += nodes.y[j]!;
    }
    middleX = mirrored ? 0 : middleX / count;
    middleY /= count;

    const { dx, dy, ddx, ddy } = nodes;
    let area = 0;
    let perimeter = 0;
    let known = 0;
    for (let j = 0; j < count; j++) {
      const px = nodes.x[j]! - middleX;
      const py = nodes.y[j]! - middleY;
      const ux = dx[j]!;
      const uy = dy[j]!;
      const speed2 = ux * ux + uy * uy;
      const radius2 = px * px + py * py;
      const sector = px * uy - py * ux;
      x[j] = px;
      y[j] = py;
      slope[j] = (px * ux + py * uy) / 2;
      weight[j] = -(speed2 + px * ddx[j]! + py * ddy[j]!) / 2;
      density[j] = radius2 / 2;
      area += sector;
      perimeter += Math.sqrt(speed2);
      known += radius2 * sector;
    }
    area *= h / 2;
    perimeter *= h;
    known *= h / 16;

    let functional = 0;
    if (mirrored) {
      assembleHalf(equation, nodes);
      eliminate(matrix, density, count / 2);
      for (let j = 0; j < count / 2; j++) functional += 2 * density[j]! * weight[j]!;
    } else {
      assemble(equation, nodes);
      eliminate(matrix, density, count);
      for (let j = 0; j < count; j++) functional += density[j]! * weight[j]!;
    }

    result.area = area;
    result.perimeter = perimeter;
    result.hydraulicDiameter = (4 * area) / perimeter;
    result.conductance = known - ((h * h) / (2 * Math.PI)) * functional;
    result.poiseuilleNumber = (result.hydraulicDiameter ** 2 * area) / (2 * result.conductance);
    return result;
  };
}

/** Whether node `j` and node `count - 1 - j` are mirror images in `x = 0`. */
function isMirrored({ count, x, y, dx, dy }: CurveNodes): boolean {
  let size = 0;
  for (let j = 0; j < count; j++) size = Math.max(size, Math.abs(x[j]!) + Math.abs(dx[j]!) + Math.abs(dy[j]!));
  const tolerance = mirrorTolerance * size;
  for (let j = 0, k = count - 1; j < k; j++, k--) {
    if (!(Math.abs(x[j]! + x[k]!) <= tolerance && Math.abs(y[j]! - y[k]!) <= tolerance)) return false;
    if (!(Math.abs(dx[j]! - dx[k]!) <= tolerance && Math.abs(dy[j]! + dy[k]!) <= tolerance)) return false;
  }
  return true;
}
