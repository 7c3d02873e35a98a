import { gauss5, onUnitInterval } from '../../linear/index.js';
import type { CurveNodes } from '../../outline/index.js';

/** A closed smooth curve by its arc length, counter-clockwise. */
export interface EdgeCurve {
  /** mm */
  readonly length: number;
  /** Writes `x, y`, the unit tangent and the curvature (positive where convex) at arc length `arc`, taken round. */
  at(arc: number, out: Float64Array): void;
  /** Arc length at node `j` of the outline it was made from. */
  arcOfNode(j: number): number;
}

const rule = onUnitInterval(gauss5);

/**
 * The curve through the nodes of an outline: quintic Hermite pieces that meet position, first and second derivative at
 * every node, so the error falls with the sixth power of the node spacing. Arc length 0 is the outline's bottom
 * (`s = -pi/2`), so that a mirror-symmetric outline has its top at half its length.
 */
export function edgeCurve(nodes: CurveNodes): EdgeCurve {
  const { count } = nodes;
  /** Position and two derivatives with respect to `u` in [0, 1] on piece `j`, which runs from node `j` to the next. */
  const local = new Float64Array(6);
  const evaluateX = hermitePieces(count, nodes.x, nodes.dx, nodes.ddx, local.subarray(0, 3));
  const evaluateY = hermitePieces(count, nodes.y, nodes.dy, nodes.ddy, local.subarray(3));
  const evaluate = (j: number, u: number) => {
    evaluateX(j, u);
    evaluateY(j, u);
  };
  const pieceLength = (j: number, to: number) => {
    let sum = 0;
    for (const [place, weight] of rule) {
      evaluate(j, to * place);
      sum += weight * Math.hypot(local[1]!, local[4]!);
    }
    return sum * to;
  };
  const start = new Float64Array(count + 1);
  for (let j = 0; j < count; j++) start[j + 1] = start[j]! + pieceLength(j, 1);
  const length = start[count]!;
  if (!(length > 0)) throw new RangeError(`outline: expected a closed curve of positive length, received ${length}`);
  // The bottom lies in the middle of the piece from the last node to the first.
  const bottom = start[count - 1]! + pieceLength(count - 1, 0.5);

  return {
    length,
    arcOfNode: (j) => wrap(start[j]! - bottom, length),
    at(arc, out) {
      const target = wrap(arc + bottom, length);
      let low = 0;
      let high = count;
      while (high - low > 1) {
        const middle = (low + high) >> 1;
        if (start[middle]! <= target) low = middle;
        else high = middle;
      }
      const span = start[low + 1]! - start[low]!;
      let u = (target - start[low]!) / span;
      for (let newton = 0; newton < 8; newton++) {
        const miss = start[low]! + pieceLength(low, u) - target;
        evaluate(low, u);
        u -= miss / Math.hypot(local[1]!, local[4]!);
        if (Math.abs(miss) < 1e-14 * length) break;
      }
      evaluate(low, u);
      const [x, dx, ddx, y, dy, ddy] = local as unknown as [number, number, number, number, number, number];
      const speed = Math.hypot(dx, dy);
      out[0] = x;
      out[1] = y;
      out[2] = dx / speed;
      out[3] = dy / speed;
      out[4] = (dx * ddy - dy * ddx) / (speed * speed * speed);
    },
  };
}

function wrap(arc: number, length: number): number {
  const turns = arc / length;
  return (turns - Math.floor(turns)) * length;
}

/** Quintic Hermite polynomials of one coordinate from what it and its derivatives are at the nodes; writes value and two derivatives. */
function hermitePieces(
  count: number,
  value: Float64Array,
  slope: Float64Array,
  second: Float64Array,
  out: Float64Array,
): (j: number, u: number) => void {
  const step = (2 * Math.PI) / count;
  return (j, u) => {
    const k = (j + 1) % count;
    const [p, d, s] = [value[j]!, slope[j]! * step, second[j]! * step * step];
    const [P, D, S] = [value[k]!, slope[k]! * step, second[k]! * step * step];
    const rise = P - p;
    const a = 10 * rise - 6 * d - 4 * D - 1.5 * s + 0.5 * S;
    const b = -15 * rise + 8 * d + 7 * D + 1.5 * s - S;
    const c = 6 * rise - 3 * (d + D) - 0.5 * (s - S);
    out[0] = p + u * (d + u * (s / 2 + u * (a + u * (b + u * c))));
    out[1] = d + u * (s + u * (3 * a + u * (4 * b + u * 5 * c)));
    out[2] = s + u * (6 * a + u * (12 * b + u * 20 * c));
  };
}
