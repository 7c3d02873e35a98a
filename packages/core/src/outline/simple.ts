import type { CurveNodes } from './nodes.js';

/**
 * Whether an outline is a simple counter-clockwise curve, as far as its nodes tell: the tangent turns once, and the
 * polygon of the nodes does not cross itself. Most outlines are settled by a sufficient test of one pass (star-shaped
 * about `(centreX, centreY)`); the others by testing pairs of edges.
 */
export function isSimple(nodes: CurveNodes, centreX: number, centreY: number): boolean {
  return turnsOnce(nodes) && (isStarShaped(nodes, centreX, centreY) || !crossesItself(nodes.x, nodes.y, nodes.count));
}

/** Counts how often the tangent passes the direction +x, counter-clockwise less clockwise; catches loops between nodes. */
function turnsOnce({ count, dx, dy }: CurveNodes): boolean {
  let turns = 0;
  let px = dx[count - 1]!;
  let py = dy[count - 1]!;
  for (let j = 0; j < count; j++) {
    const qx = dx[j]!;
    const qy = dy[j]!;
    const turn = px * qy - py * qx;
    if (py < 0 && qy >= 0 && turn > 0) turns++;
    else if (py >= 0 && qy < 0 && turn < 0) turns--;
    px = qx;
    py = qy;
  }
  return turns === 1;
}

/** Every edge of the polygon turns counter-clockwise about the centre, and all of them together turn once. */
function isStarShaped({ count, x, y }: CurveNodes, centreX: number, centreY: number): boolean {
  let turns = 0;
  let px = x[count - 1]! - centreX;
  let py = y[count - 1]! - centreY;
  for (let j = 0; j < count; j++) {
    const qx = x[j]! - centreX;
    const qy = y[j]! - centreY;
    if (!(px * qy - py * qx > 0)) return false;
    if (py < 0 && qy >= 0) turns++;
    px = qx;
    py = qy;
  }
  return turns === 1;
}

/** Whether two edges of a closed polygon that are not neighbours meet. Pairs whose boxes lie apart are left at once. */
export function crossesItself(x: ArrayLike<number>, y: ArrayLike<number>, count: number): boolean {
  for (let i = 0; i + 2 < count; i++) {
    const ax = x[i]!;
    const ay = y[i]!;
    const bx = x[i + 1]!;
    const by = y[i + 1]!;
    const left = Math.min(ax, bx);
    const right = Math.max(ax, bx);
    const low = Math.min(ay, by);
    const high = Math.max(ay, by);
    const last = i === 0 ? count - 1 : count;
    let cx = x[i + 2]!;
    let cy = y[i + 2]!;
    for (let j = i + 2; j < last; j++) {
      const k = j + 1 === count ? 0 : j + 1;
      const ex = x[k]!;
      const ey = y[k]!;
      const apart =
        (cx < left && ex < left) || (cx > right && ex > right) || (cy < low && ey < low) || (cy > high && ey > high);
      if (!apart && edgesMeet(x, y, i, j, k)) return true;
      cx = ex;
      cy = ey;
    }
  }
  return false;
}

/** Edges from i to the next point and from j to k, whose boxes overlap, meet when each has its ends on both sides of the other, or on it. */
function edgesMeet(x: ArrayLike<number>, y: ArrayLike<number>, i: number, j: number, k: number): boolean {
  const [ax, ay, bx, by] = [x[i]!, y[i]!, x[i + 1]!, y[i + 1]!];
  const [cx, cy, ex, ey] = [x[j]!, y[j]!, x[k]!, y[k]!];
  const c = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
  const e = (bx - ax) * (ey - ay) - (by - ay) * (ex - ax);
  const a = (ex - cx) * (ay - cy) - (ey - cy) * (ax - cx);
  const b = (ex - cx) * (by - cy) - (ey - cy) * (bx - cx);
  return c * e <= 0 && a * b <= 0;
}
