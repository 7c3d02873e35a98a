import { type EdgeFold, holdsClass, shareOf, solvedNodes } from './fold.js';
import type { LocalEdge } from './local-nodes.js';

/**
 * How a section that is free to strain along the channel does so with one in it: what axial force the channel no longer carries falls to all of the
 * section. Its axial force is a straight line in the channel's moments and its area (Betti between the solved state and a unit of strain):
 * `(stiffness - modulus area) strain = stress area + work of the moments on the field`, with the load's axial stress where nothing is stressed in
 * the section's plane.
 */
export interface AxialAnswer {
  /** Regular field of a unit of strain along the channel, in the host without it: coefficients of the symmetric class, or of all fields. MPa */
  readonly field: Float64Array;
  /** Axial force of a unit of strain without channel, N. */
  readonly stiffness: number;
  /** Young's modulus along the channel, of what it takes away, MPa. */
  readonly modulus: number;
  /** `(kappa + 1) / 2G` of the same: what a moment's work is a multiple of, 1/MPa. */
  readonly compliance: number;
}

/** What edges change of a host's axial answer: strain per axial stress, and per product of the moments with the answer's field. */
export interface AxialGain {
  perStress: number;
  perProduct: number;
  /** Strain per further area, in squares of the basis's length, and unit of axial stress. */
  perArea: number;
}

/** Of the fields that are solved for, none that strains along the channel is antisymmetric. */
export const axialOf = (axial: AxialAnswer | undefined, fold: EdgeFold): AxialAnswer | undefined =>
  holdsClass(fold, true) ? axial : undefined;

/** `length`: of the basis, mm. */
export function writeAxialGain(axial: AxialAnswer, edges: readonly LocalEdge[], length: number, out: AxialGain): void {
  const area = enclosedArea(edges);
  const perForce = 1 / (axial.stiffness / (length * length) - axial.modulus * area);
  out.perStress = area * perForce;
  out.perProduct = axial.compliance * perForce;
  out.perArea = perForce;
}

/** Area within all edges, in squares of the basis's length. */
function enclosedArea(edges: readonly LocalEdge[]): number {
  let area = 0;
  for (const { nodes, fold } of edges) {
    const { count, x, y, dx, dy } = nodes;
    let sum = 0;
    for (let j = 0; j < solvedNodes(fold, count); j++) sum += x[j]! * dy[j]! - y[j]! * dx[j]!;
    area += shareOf(fold) * (Math.PI / count) * sum;
  }
  return area;
}

/** Its rate at velocities of the solved nodes, `(x, y, dx, dy)` node by node, edge by edge, from `from` on. */
export function areaRate(edges: readonly LocalEdge[], velocities: Float64Array, from: number): number {
  let rate = 0;
  let at = from;
  for (const { nodes, fold } of edges) {
    const { count, x, y, dx, dy } = nodes;
    let sum = 0;
    for (let j = 0; j < solvedNodes(fold, count); j++, at += 4)
      sum +=
        velocities[at]! * dy[j]! -
        velocities[at + 1]! * dx[j]! -
        velocities[at + 2]! * y[j]! +
        velocities[at + 3]! * x[j]!;
    rate += shareOf(fold) * (Math.PI / count) * sum;
  }
  return rate;
}

/** Product of the field with what stands in `of` from `from` on. */
export function productWith({ field }: AxialAnswer, of: Float64Array, from = 0): number {
  let sum = 0;
  for (let f = 0; f < field.length; f++) sum += field[f]! * of[from + f]!;
  return sum;
}

export function addField({ field }: AxialAnswer, strain: number, coefficients: Float64Array): void {
  for (let f = 0; f < field.length; f++) coefficients[f]! += strain * field[f]!;
}
