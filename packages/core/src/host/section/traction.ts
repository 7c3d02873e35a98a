import type { CurveForce } from './joint.js';

type Field = (x: number, y: number) => readonly [number, number];

/**
 * Traction of a force and a moment on a curve. That of the moment M turns about the middle c of the curve: M (e_z x (r - c)) / J with J the integral of |r - c|^2
 * along it, which has no resultant force; on a straight one it is the linear stress of bending.
 *
 * @param integral of a field along the curve
 */
export function tractionOf(
  { force, moment = 0 }: CurveForce,
  integral: (field: Field) => readonly [number, number],
): Field {
  const [length] = integral(() => [1, 0]);
  const [fx, fy] = [force[0] / length, force[1] / length];
  if (moment === 0) return () => [fx, fy];
  const [sx, sy] = integral((x, y) => [x, y]);
  const [cx, cy] = [sx / length, sy / length];
  const [polar] = integral((x, y) => [(x - cx) ** 2 + (y - cy) ** 2, 0]);
  const turn = moment / polar;
  return (x, y) => [fx - turn * (y - cy), fy + turn * (x - cx)];
}
