import { type Bounds, checkBounds } from '../problem.js';

/**
 * A smooth map from all numbers onto the box, variable by variable, so that a search without bounds stays inside and sees no
 * edge. Both ends finite: `x = lower + (upper - lower) (1 - cos y) / 2`, under which a least value on the bound is a smooth
 * one in `y`. One end finite: `x = lower - 1 + sqrt(y^2 + 1)`. None: `x = y`. (James & Roos, Comput. Phys. Commun. 10
 * (1975) 343-367, section on internal parameters.)
 */
export interface BoundedMap {
  /** Variables inside the bounds, exactly. */
  inside(free: ArrayLike<number>): Float64Array;
  /** One of the points that are mapped to `x`; what lies outside is taken to the bound first. */
  free(x: ArrayLike<number>): Float64Array;
}

export function boundedMap(bounds: Bounds): BoundedMap {
  checkBounds(bounds);
  const lower = Float64Array.from(bounds.lower);
  const upper = Float64Array.from(bounds.upper);
  return {
    inside: (free) => lower.map((low, i) => clamp(inward(free[i]!, low, upper[i]!), low, upper[i]!)),
    free: (x) => lower.map((low, i) => outward(clamp(x[i]!, low, upper[i]!), low, upper[i]!)),
  };
}

function inward(free: number, lower: number, upper: number): number {
  if (Number.isFinite(lower)) {
    if (Number.isFinite(upper)) return lower + ((upper - lower) * (1 - Math.cos(free))) / 2;
    return lower - 1 + Math.sqrt(free * free + 1);
  }
  return Number.isFinite(upper) ? upper + 1 - Math.sqrt(free * free + 1) : free;
}

function outward(x: number, lower: number, upper: number): number {
  if (lower === upper) return 0;
  if (Number.isFinite(lower)) {
    if (Number.isFinite(upper)) return Math.acos(1 - (2 * (x - lower)) / (upper - lower));
    return Math.sqrt((x - lower + 1) ** 2 - 1);
  }
  return Number.isFinite(upper) ? Math.sqrt((upper - x + 1) ** 2 - 1) : x;
}

/** Rounding in the map must not carry a point over the bound. */
function clamp(value: number, lower: number, upper: number): number {
  return Math.min(Math.max(value, lower), upper);
}
