import type { Curve } from './family.js';
import { type CurveNodes, createCurveNodes } from './nodes.js';

/** Spacing of nodes over the local thickness; a circle's radius of curvature counts as half its thickness. */
const largestSpacing = 0.3;
const fewest = 48;
const most = 512;
/** Numbers of nodes are multiples of it. */
export const nodeStep = 16;

/**
 * How many nodes an outline needs for a peak stress within about 0.3 %: curvature times spacing below 0.6 and spacing
 * below 0.3 of the local thickness, as measured on slots and rounded triangles. A multiple of 16 from 48 to 512.
 *
 * Thickness at a node is the diameter of the largest circle that touches the outline there and holds or meets no other
 * part of it, taken on both sides (the channel and a waist of material): `|d|^2 / |n d|` for the vector `d` to another
 * node and the normal `n`. Near the node itself this tends to twice the radius of curvature, so that one rule covers both
 * conditions: the spacing times `|t x d| / |d|^2`, which is the kernel of the edge equation, stays below 0.3.
 *
 * `nodes` may be coarser than the answer; 64 serve. `atLeast` is a family's `fewestNodes`. The material between the outline and its
 * mirror images in `x =` each of `lines` is a waist as well, and that between it and `others`.
 */
export function nodesNeeded(
  nodes: CurveNodes,
  atLeast: number = fewest,
  lines: readonly number[] = [],
  others: readonly CurveNodes[] = [],
): number {
  const { count, x, y, dx, dy, ddx, ddy } = nodes;
  let kernel = 0;
  for (let i = 0; i < count; i++) {
    const px = x[i]!;
    const py = y[i]!;
    const ux = dx[i]!;
    const uy = dy[i]!;
    kernel = Math.max(kernel, Math.abs(ux * ddy[i]! - uy * ddx[i]!) / (2 * (ux * ux + uy * uy)));
    for (let j = i + 1; j < count; j++) {
      const ex = x[j]! - px;
      const ey = y[j]! - py;
      const fromHere = Math.abs(ux * ey - uy * ex);
      const fromThere = Math.abs(dx[j]! * ey - dy[j]! * ex);
      const squared = ex * ex + ey * ey;
      // Divides only where there is more: most pairs have less.
      if (fromHere > kernel * squared) kernel = fromHere / squared;
      if (fromThere > kernel * squared) kernel = fromThere / squared;
    }
    for (let line = 0; line < lines.length; line++)
      for (let j = 0; j < count; j++) {
        const ex = 2 * lines[line]! - x[j]! - px;
        const ey = y[j]! - py;
        const fromHere = Math.abs(ux * ey - uy * ex);
        const squared = ex * ex + ey * ey;
        if (fromHere > kernel * squared) kernel = fromHere / squared;
      }
    for (const other of others)
      for (let j = 0; j < other.count; j++) {
        const ex = other.x[j]! - px;
        const ey = other.y[j]! - py;
        const fromHere = Math.abs(ux * ey - uy * ex);
        const squared = ex * ex + ey * ey;
        if (fromHere > kernel * squared) kernel = fromHere / squared;
      }
  }
  const needed = Math.ceil((2 * Math.PI * kernel) / (largestSpacing * nodeStep)) * nodeStep;
  return needed <= most ? Math.max(needed, atLeast) : most;
}

/** The same for a given outline, however many nodes it has been seen at, and never fewer than its family asks for. */
export function curveNodesNeeded(outline: Curve, lines: readonly number[] = []): number {
  const firstLook = createCurveNodes(64);
  outline.place(firstLook);
  return nodesNeeded(firstLook, outline.fewestNodes, lines);
}
