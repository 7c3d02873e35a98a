import { trigonometricRule } from '../linear/index.js';

/** Nodes of an edge in local coordinates, `(x, y)` each, and the steps `t' h` there. */
export interface LocalEdge {
  readonly places: Float64Array;
  readonly weights: Float64Array;
}

/** Values of one load at a node: Phi, Phi' and Psi, in the end the channel's own part of them. */
export const valuesPerLoad = 6;

/** Writes Phi, Phi' and Psi of one load at every node from the derivative of phi along the curve parameter: from `first` on, node by node in strides. */
export type WriteBoundaryValues = (
  edge: LocalEdge,
  slope: Float64Array,
  values: Float64Array,
  first: number,
  stride: number,
) => void;

export function boundaryValues(count: number): WriteBoundaryValues {
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
