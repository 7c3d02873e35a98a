import type { InnerPoint } from '../edge/index.js';
import { type CurveNodes, largestInscribedCircle, type OutlineMeasure } from '../outline/index.js';

/** Nearer to the edge than this share of the mean radius, a centroid is not 'well inside'. */
const leastDepth = 0.1;

/** Writes a point well inside an outline: its centroid, or for a bent outline the middle of its largest inscribed circle. */
export function innerPoint(nodes: CurveNodes, measure: OutlineMeasure, out: InnerPoint): void {
  const { count, x, y } = nodes;
  const { centroidX, centroidY, area } = measure;
  let crossings = 0;
  let nearest = Number.POSITIVE_INFINITY;
  for (let i = 0, j = count - 1; i < count; j = i++) {
    const ex = x[i]! - centroidX;
    const ey = y[i]! - centroidY;
    nearest = Math.min(nearest, ex * ex + ey * ey);
    const above = y[i]! > centroidY;
    if (above === y[j]! > centroidY) continue;
    if (centroidX < x[i]! + ((centroidY - y[i]!) * (x[j]! - x[i]!)) / (y[j]! - y[i]!)) crossings++;
  }
  out.x = centroidX;
  out.y = centroidY;
  if (crossings % 2 === 1 && nearest > (leastDepth ** 2 * area) / Math.PI) return;
  const circle = largestInscribedCircle(nodes);
  out.x = circle.x;
  out.y = circle.y;
}
