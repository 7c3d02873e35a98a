import type { Bounds } from '../../problem.js';
import type { Random } from '../../random.js';

/**
 * Points spread over the box so that every variable takes one value in each of `count` equal slices (Latin hypercube: McKay,
 * Beckman & Conover, Technometrics 21 (1979) 239-245).
 */
export function latinHypercube(count: number, { lower, upper }: Bounds, random: Random): Float64Array[] {
  const points = Array.from({ length: count }, () => new Float64Array(lower.length));
  const slices = Array.from({ length: count }, (_, slice) => slice);
  for (let i = 0; i < lower.length; i++) {
    random.shuffle(slices);
    points.forEach((point, index) => {
      const share = (slices[index]! + random.uniform()) / count;
      point[i] = lower[i]! + share * (upper[i]! - lower[i]!);
    });
  }
  return points;
}
