import { multiply } from '../edge/dense.js';
import { halfSize, type InnerPoint } from '../edge/index.js';
import type { ReducedModel } from '../host/index.js';
import type { Border, CurveNodes } from '../outline/index.js';
import type { ActingLoad, EdgeStress } from '../stress/index.js';
import { tensionFactor } from './criteria.js';
import { combine, type EdgeStrength, lower } from './edge-strength.js';
import { createFillerField, type FillerField, type PlaneStress } from './filler-field.js';
import type { FirstFailure } from './first-failure.js';

/** Gauss-Legendre abscissae and weights on (0, 1), four points: the average of a stress over the distance. */
const gauss = [-1, 1].flatMap((side) =>
  [-1, 1].map((end) => {
    const abscissa = Math.sqrt(3 / 7 + (end * 2 * Math.sqrt(6 / 5)) / 7);
    return [(1 + side * abscissa) / 2, (18 - end * Math.sqrt(30)) / 72] as const;
  }),
);

/** Steps towards the contour along a normal, each as long as the distance to the contour allows. */
const mostSteps = 12;

/**
 * By a characteristic distance (Whitney & Nuismer, J. Compos. Mater. 8 (1974) 253-265): the tension along the edge's tangent, `distance` (mm) off
 * the edge along its normal (point stress), or averaged from the edge to there (average stress). From nodes whose distance would
 * end beyond the control contour, it ends on the contour. The filler nearer to the edge than the distance is not judged otherwise.
 */
export function createDistanceStrength(
  model: ReducedModel,
  loads: readonly ActingLoad[],
  strength: number,
  distance: number,
  average: boolean,
  contour: Border | undefined,
): EdgeStrength {
  const { basis } = model;
  const half = halfSize(basis.degree);
  const fields = new Map<number, FillerField>();
  const buffers = new Map<number, { tension: Float64Array[]; fixed: Float64Array; scaled: Float64Array }>();
  const coefficients = new Float64Array(2 * half);
  const answer = new Float64Array(2 * half);
  const point: PlaneStress = { xx: 0, yy: 0, xy: 0 };
  const places: readonly (readonly [number, number])[] = average ? gauss : [[1, 1]];
  let nodes: CurveNodes | undefined;
  let seen = 0;

  const buffersOf = (count: number) => {
    let found = buffers.get(count);
    if (found === undefined) {
      const buffer = () => new Float64Array(count);
      found = { tension: loads.map(buffer), fixed: buffer(), scaled: buffer() };
      buffers.set(count, found);
      fields.set(count, createFillerField(basis, count));
    }
    return found;
  };

  /** How far from (x, y) along the normal the distance reaches before it meets the contour. */
  const reach = (x: number, y: number, normalX: number, normalY: number): number => {
    if (contour === undefined) return distance;
    let depth = 0;
    for (let step = 0; step < mostSteps && depth < distance; step++)
      depth += Math.max(0, contour.distance(x + depth * normalX, y + depth * normalY));
    return Math.min(depth, distance);
  };

  return {
    covers(px, py) {
      const { count, x, y } = nodes!;
      for (let j = 0; j < count; j++) if ((x[j]! - px) ** 2 + (y[j]! - py) ** 2 < distance * distance) return true;
      return false;
    },
    take(stress: EdgeStress, at: CurveNodes, mirror: boolean, inner: InnerPoint) {
      nodes = at;
      const { count } = at;
      seen = mirror ? count / 2 : count;
      const { tension } = buffersOf(count);
      const field = fields.get(count)!;
      loads.forEach((load, l) => {
        coefficients.set(load.undisturbed);
        if (load.response !== undefined) {
          const moments = stress.moments[l]!;
          multiply(load.response.symmetric, half, half, moments, answer);
          if (!mirror) multiply(load.response.antisymmetric, half, half, moments.subarray(half), answer.subarray(half));
          for (let i = 0; i < (mirror ? half : 2 * half); i++) coefficients[i]! += answer[i]!;
        }
        field.take(at, stress.slopes[l]!, coefficients, inner);
        for (let j = 0; j < seen; j++) {
          const dx = at.dx[j]!;
          const dy = at.dy[j]!;
          const speed = Math.hypot(dx, dy);
          const c = dx / speed;
          const s = dy / speed;
          // Into the material: to the right of a counter-clockwise edge.
          const depth = reach(at.x[j]!, at.y[j]!, s, -c);
          let sum = 0;
          for (const [share, weight] of places) {
            // On the edge itself there is no normal to go along: an outline that touches the contour keeps its hoop stress.
            const off = Math.max(share * depth, 1e-9 * distance);
            field.stressAt(at.x[j]! + off * s, at.y[j]! - off * c, point);
            sum += weight * (point.xx * c * c + point.yy * s * s + 2 * point.xy * c * s);
          }
          tension[l]![j] = sum + load.offset;
        }
      });
    },
    judge(fixedFactors: Float64Array, scaledFactors: Float64Array, first: FirstFailure) {
      const { count, x, y } = nodes!;
      const { tension, fixed, scaled } = buffersOf(count);
      combine(tension, fixedFactors, fixed);
      combine(tension, scaledFactors, scaled);
      let least = Number.POSITIVE_INFINITY;
      let at = -1;
      for (let j = 0; j < seen; j++) {
        const factor = tensionFactor(fixed[j]!, scaled[j]!, strength);
        if (factor >= least) continue;
        least = factor;
        at = j;
      }
      if (at < 0) return;
      // Off the edge the tension is smooth: a parabola finds the worst place between nodes. It has its top in 1 / factor.
      const inverse = (j: number) => {
        // The mirror image of the first node is the one before it, and so at the other end.
        const end = seen < count ? Math.min(Math.max(j, 0), seen - 1) : (j + count) % count;
        return 1 / tensionFactor(fixed[end]!, scaled[end]!, strength);
      };
      const middle = 1 / least;
      const before = inverse(at - 1);
      const after = inverse(at + 1);
      const bend = 2 * middle - before - after;
      const top = bend > 0 ? middle + (after - before) ** 2 / (8 * bend) : middle;
      lower(first, least === 0 ? 0 : 1 / top, x[at]!, y[at]!);
    },
  };
}
