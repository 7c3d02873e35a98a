import Delaunator from 'delaunator';

/** A triangulated region. The points of the loops come first, in their order; triangles are counter-clockwise. */
export interface Triangulation {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Three point numbers per triangle. */
  readonly triangles: Int32Array;
}

/** A closed polygon with the region on its left. Lengths in mm. */
export interface Loop {
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
}

/**
 * Segments (numbered through all loops: segment `i` starts at point `i`) whose diametral circle holds another point of
 * the loops. Where there are none, every segment is a side of the Delaunay triangulation.
 */
export function encroachedSegments(loops: readonly Loop[]): number[] {
  const border = joined(loops);
  const found: number[] = [];
  for (let i = 0; i < border.count; i++) {
    const a = i;
    const b = border.next[i]!;
    for (let p = 0; p < border.count; p++) {
      if (p === a || p === b) continue;
      if (encroaches(border.x[p]!, border.y[p]!, border, i, 1)) {
        found.push(i);
        break;
      }
    }
  }
  return found;
}

interface Border {
  readonly count: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** The point at the other end of the segment that starts at each point. */
  readonly next: Int32Array;
}

function joined(loops: readonly Loop[]): Border {
  const count = loops.reduce((sum, loop) => sum + loop.x.length, 0);
  const border = { count, x: new Float64Array(count), y: new Float64Array(count), next: new Int32Array(count) };
  let at = 0;
  for (const loop of loops) {
    const n = loop.x.length;
    for (let i = 0; i < n; i++) {
      border.x[at + i] = loop.x[i]!;
      border.y[at + i] = loop.y[i]!;
      border.next[at + i] = at + ((i + 1) % n);
    }
    at += n;
  }
  return border;
}

/** Whether a point lies in the circle about a segment's middle, `scale` times as large as its diametral circle. */
function encroaches(px: number, py: number, { x, y, next }: Border, segment: number, scale: number): boolean {
  const b = next[segment]!;
  const dx = px - (x[segment]! + x[b]!) / 2;
  const dy = py - (y[segment]! + y[b]!) / 2;
  const ex = x[b]! - x[segment]!;
  const ey = y[b]! - y[segment]!;
  return 4 * (dx * dx + dy * dy) < scale * scale * (ex * ex + ey * ey) * (1 - 1e-9);
}

const insertionPasses = 60;
const smoothingPasses = 6;

/**
 * Delaunay triangulation of a region with sides about `sizeAt(x, y)` long: circumcentres of triangles that are too large
 * enter pass by pass (Rebay, J. Comput. Phys. 106 (1993) 125-138), none in the diametral circle of a border segment;
 * then the points move to the middle of their neighbours a few times. No random numbers: same loops, same mesh.
 * The loops must be free of `encroachedSegments`.
 */
export function triangulate(loops: readonly Loop[], sizeAt: (x: number, y: number) => number): Triangulation {
  const border = joined(loops);
  const xs = Array.from(border.x);
  const ys = Array.from(border.y);
  const free = (x: number, y: number, scale: number) => {
    for (let segment = 0; segment < border.count; segment++) if (encroaches(x, y, border, segment, scale)) return false;
    return true;
  };

  for (let pass = 0; pass < insertionPasses; pass++) {
    const mesh = inside(xs, ys, border);
    const wanted = oversized(mesh, xs, ys, sizeAt);
    const accepted: Candidate[] = [];
    for (const candidate of wanted) {
      const near = 0.85 * candidate.size;
      if (accepted.some(({ x, y }) => Math.hypot(x - candidate.x, y - candidate.y) < near)) continue;
      if (!free(candidate.x, candidate.y, 1.25)) continue;
      if (!insideLoops(candidate.x, candidate.y, border)) continue;
      accepted.push(candidate);
    }
    if (accepted.length === 0) break;
    for (const { x, y } of accepted) {
      xs.push(x);
      ys.push(y);
    }
  }

  for (let pass = 0; pass < smoothingPasses; pass++) {
    const mesh = inside(xs, ys, border);
    const sumX = new Float64Array(xs.length);
    const sumY = new Float64Array(xs.length);
    const neighbours = new Int32Array(xs.length);
    for (let t = 0; t < mesh.length; t += 3)
      for (let k = 0; k < 3; k++) {
        const a = mesh[t + k]!;
        const b = mesh[t + ((k + 1) % 3)]!;
        sumX[a]! += xs[b]!;
        sumY[a]! += ys[b]!;
        neighbours[a]!++;
      }
    for (let p = border.count; p < xs.length; p++) {
      const x = sumX[p]! / neighbours[p]!;
      const y = sumY[p]! / neighbours[p]!;
      if (!free(x, y, 1.2)) continue;
      xs[p] = x;
      ys[p] = y;
    }
  }
  return { x: Float64Array.from(xs), y: Float64Array.from(ys), triangles: inside(xs, ys, border) };
}

interface Candidate {
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly excess: number;
}

/** Circumcentres of the triangles whose circumcircle is too large for the size wanted there, the worst first. */
function oversized(
  triangles: Int32Array,
  xs: readonly number[],
  ys: readonly number[],
  sizeAt: (x: number, y: number) => number,
): Candidate[] {
  const found: Candidate[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const ax = xs[triangles[t]!]!;
    const ay = ys[triangles[t]!]!;
    const bx = xs[triangles[t + 1]!]! - ax;
    const by = ys[triangles[t + 1]!]! - ay;
    const cx = xs[triangles[t + 2]!]! - ax;
    const cy = ys[triangles[t + 2]!]! - ay;
    const twice = 2 * (bx * cy - by * cx);
    const b2 = bx * bx + by * by;
    const c2 = cx * cx + cy * cy;
    const x = (cy * b2 - by * c2) / twice;
    const y = (bx * c2 - cx * b2) / twice;
    const radius = Math.hypot(x, y);
    if (!Number.isFinite(radius)) continue;
    const size = sizeAt(ax + x, ay + y);
    // An equilateral triangle of side s has the circumradius s / sqrt 3; up to 1.2 times that is let pass.
    const excess = (radius * Math.sqrt(3)) / size;
    if (excess > 1.2) found.push({ x: ax + x, y: ay + y, size, excess });
  }
  return found.sort((p, q) => q.excess - p.excess || p.x - q.x || p.y - q.y);
}

/** Delaunay triangles inside the border: those that an odd number of border segments parts from the outside. */
function inside(xs: readonly number[], ys: readonly number[], border: Border): Int32Array {
  const coordinates = new Float64Array(2 * xs.length);
  for (let i = 0; i < xs.length; i++) {
    coordinates[2 * i] = xs[i]!;
    coordinates[2 * i + 1] = ys[i]!;
  }
  const { triangles, halfedges } = new Delaunator(coordinates);
  const count = triangles.length / 3;
  const isBorder = (edge: number) => {
    const a = triangles[edge]!;
    const b = triangles[edge % 3 === 2 ? edge - 2 : edge + 1]!;
    return (a < border.count && border.next[a] === b) || (b < border.count && border.next[b] === a);
  };
  const depth = new Int8Array(count).fill(-1);
  const stack: number[] = [];
  for (let edge = 0; edge < halfedges.length; edge++)
    if (halfedges[edge] === -1 && depth[Math.floor(edge / 3)] === -1) {
      depth[Math.floor(edge / 3)] = isBorder(edge) ? 1 : 0;
      stack.push(Math.floor(edge / 3));
    }
  while (stack.length > 0) {
    const t = stack.pop()!;
    for (let edge = 3 * t; edge < 3 * t + 3; edge++) {
      const twin = halfedges[edge]!;
      if (twin === -1) continue;
      const other = Math.floor(twin / 3);
      if (depth[other] !== -1) continue;
      depth[other] = isBorder(edge) ? 1 - depth[t]! : depth[t]!;
      stack.push(other);
    }
  }
  const kept: number[] = [];
  // delaunator's triangles run clockwise in a frame with y up.
  for (let t = 0; t < count; t++)
    if (depth[t] === 1) kept.push(triangles[3 * t]!, triangles[3 * t + 2]!, triangles[3 * t + 1]!);
  return Int32Array.from(kept);
}

/** Whether a point lies in the region: crossing number of the segments to its right. */
function insideLoops(px: number, py: number, { count, x, y, next }: Border): boolean {
  let crossings = 0;
  for (let a = 0; a < count; a++) {
    const b = next[a]!;
    if (y[a]! > py === y[b]! > py) continue;
    if (x[a]! + ((py - y[a]!) / (y[b]! - y[a]!)) * (x[b]! - x[a]!) > px) crossings++;
  }
  return crossings % 2 === 1;
}
