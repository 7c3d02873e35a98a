import { aroundChannel, modelBorder, type ReducedModel } from '../host/index.js';
import type { ActingLoad } from '../stress/index.js';
import type { CaseFactors } from './case-split.js';
import { type PointStress, principalFactor } from './criteria.js';
import { type PlaneStress, regularStress } from './filler-field.js';
import type { FirstFailure } from './first-failure.js';

/** Of a difference of equal numbers, as a share of them. */
const rounding = 1e-12;

/** The filler inside the control contour. */
export interface InnerFiller {
  /** Lowers `first` where the filler without channel fails at a smaller factor. */
  judgeUndisturbed(factors: CaseFactors, first: FirstFailure): void;
}

export function createInnerFiller(model: ReducedModel, strength: number, loads: readonly ActingLoad[]): InnerFiller {
  const { basis } = model;
  const { inner } = model.places;
  const places: { x: number; y: number; stress: PlaneStress[] }[] = [];
  if (inner !== undefined) {
    const border = modelBorder(model);
    for (let y = inner.yMin; y < inner.yMax; y += inner.step)
      for (let x = inner.xMin; x <= inner.xMax; x += inner.step) {
        if (border.distance(x, y) < 0) continue;
        const stress = loads.map(({ undisturbed, offset }) => {
          const point = { xx: 0, yy: 0, xy: 0 };
          regularStress(basis, undisturbed, x, y, point);
          // A pressure needs a channel: what rounding leaves of it is no stress.
          const real = (value: number) => (Math.abs(value) <= rounding * Math.abs(offset) ? 0 : value);
          return { xx: real(point.xx + offset), yy: real(point.yy + offset), xy: real(point.xy) };
        });
        places.push({ x, y, stress });
      }
  }
  const combined = (factors: Float64Array, stress: readonly PlaneStress[]): PointStress => {
    const sum = { n: 0, t: 0, s: 0 };
    stress.forEach(({ xx, yy, xy }, l) => {
      sum.n += factors[l]! * xx;
      sum.t += factors[l]! * yy;
      sum.s += factors[l]! * xy;
    });
    return sum;
  };
  return {
    judgeUndisturbed({ fixed, scaled }, first) {
      for (const { x, y, stress } of places) {
        const factor = principalFactor(combined(fixed, stress), combined(scaled, stress), strength);
        if (factor >= first.factor) continue;
        first.factor = factor;
        first.place = aroundChannel;
        first.criterion = 'splitting';
        first.x = x;
        first.y = y;
      }
    },
  };
}
