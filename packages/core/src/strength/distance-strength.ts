import { multiply } from '../edge/dense.js';
import { halfSize, type InnerPoint } from '../edge/index.js';
import type { ReducedModel } from '../host/index.js';
import type { Border, CurveNodes } from '../outline/index.js';
import type { ActingLoad, EdgeStress } from '../stress/index.js';
import { tensionFactor } from './criteria.js';
import { combine, type EdgeStrength } from './edge-strength.js';
import { createFillerField, type FillerField, type PlaneStress } from './filler-field.js';
import type { FirstFailure } from './first-failure.js';

/** Gauss-Legendre abscissae and weights on (0, 1), four points: the average of a stress over the distance. */
const gauss = [
  [0.06943184420297371, 0.17392742256872692],
  [0.33000947820757187, 0.32607257743127307],
  [0.6699905217924281, 0.32607257743127307],
  [0.9305681557970263, 0.17392742256872692],
] as const;

/** Steps towards the contour along a normal, each as long as the distance to the contour allows. */
const mostSteps = 12;

/**
 * By a characteristic distance (Whitney & Nuismer, J. Compos. Mater. 8 (1974) 253-265): the tension along the edge's tangent, `distance` (mm) off
 * the edge along its normal (point stress), or averaged from the edge to there (average stress). From nodes whose distance would
 * end beyond the control contour, it ends on the contour.
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
      for (let j = 0; j < seen; j++) {
        const factor = tensionFactor(fixed[j]!, scaled[j]!, strength);
        if (factor >= first.factor) continue;
        first.factor = factor;
        first.place = 'edge';
        first.x = x[j]!;
        first.y = y[j]!;
      }
    },
  };
}
