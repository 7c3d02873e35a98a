import { halfSize } from './basis.js';

/**
 * Moments of regular fields say little one by one: those of phi and of psi nearly cancel. Those of fields that are made orthonormal, degree by degree, after the
 * rigid motions (which no channel has a moment of) fall off instead, the faster the further from the contour they are looked at. A frame is the
 * upper triangle that does it, rows one after the other: `plain fields = factor^T orthonormal`, so that `moments = factor^T framed`.
 */
export type FramedFields = 'symmetric' | 'antisymmetric' | 'whole';

/** How many framed moments there are up to a degree; the rotation has none. */
export function framedCount(of: FramedFields, degree: number): number {
  const half = halfSize(degree);
  return of === 'symmetric' ? half : of === 'antisymmetric' ? half - 1 : 2 * half - 1;
}

/** Places of the framed moments' fields among those of their class (of `whole`: `[symmetric | antisymmetric]`), degree by degree. */
export function framedOrder(of: FramedFields, degree: number): readonly number[] {
  const half = halfSize(degree);
  const order: number[] = [];
  for (let at = 0; at < half; at += 2) {
    if (of !== 'antisymmetric') order.push(at, at + 1);
    const first = of === 'whole' ? half : 0;
    // phi = i f_1 turns all as one.
    if (of !== 'symmetric') order.push(...(at === 0 ? [first + 1] : [first + at, first + at + 1]));
  }
  return order;
}

/** Turns moments in the frame's order into framed ones, in place; allocates nothing. */
export function toFrame(factor: Float64Array, count: number, moments: Float64Array): void {
  for (let i = 0, at = 0; i < count; i++) {
    const value = moments[i]! / factor[at++]!;
    moments[i] = value;
    for (let j = i + 1; j < count; j++, at++) moments[j]! -= factor[at]! * value;
  }
}

/** Turns weights of framed moments into those of moments in the frame's order, in place. */
export function weightsFromFrame(factor: Float64Array, count: number, weights: Float64Array): void {
  for (let i = count - 1, at = factor.length; i >= 0; i--) {
    at -= count - i;
    let sum = weights[i]!;
    for (let j = i + 1; j < count; j++) sum -= factor[at + j - i]! * weights[j]!;
    weights[i] = sum / factor[at]!;
  }
}

/** The frame that leaves moments as they are. */
export function plainFrame(count: number): Float64Array {
  const factor = new Float64Array((count * (count + 1)) / 2);
  for (let i = 0, at = 0; i < count; at += count - i, i++) factor[at] = 1;
  return factor;
}
