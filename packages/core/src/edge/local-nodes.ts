import type { CurveNodes } from '../outline/index.js';
import type { RegularBasis } from './basis.js';
import type { EdgeFold } from './fold.js';
import type { InnerPoint } from './inner-point.js';

/** Writes `nodes` in the basis's own coordinates, without second derivatives, which no edge equation needs. */
export function toLocal(nodes: CurveNodes, basis: RegularBasis, out: CurveNodes): void {
  const { count } = nodes;
  const scale = 1 / basis.length;
  for (let j = 0; j < count; j++) {
    out.x[j] = (nodes.x[j]! - basis.centreX) * scale;
    out.y[j] = (nodes.y[j]! - basis.centreY) * scale;
    out.dx[j] = nodes.dx[j]! * scale;
    out.dy[j] = nodes.dy[j]! * scale;
  }
}

/** An edge in local coordinates, as it is solved. */
export interface LocalEdge {
  readonly nodes: CurveNodes;
  readonly fold: EdgeFold;
  readonly inner: InnerPoint;
}
