import type { SectionStiffness } from '../../material/index.js';

/**
 * Nine-node quadrilaterals of a cross-section, and six-node triangles where there are any. The nodes of an element are a 3 x 3 grid, `3 * row + column`, columns along
 * its first direction. Lengths in mm, angles in radians.
 */
export interface SectionMesh {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Nine node numbers per element; a side may be collapsed to one node. */
  readonly elements: Int32Array;
  /** Index into the materials, one per element. */
  readonly material: Int32Array;
  readonly axes: readonly MaterialAxes[];
  /** Elements of three sides beside them. */
  readonly triangles?: SectionTriangles;
}

/** Six-node triangles of a section mesh: three corners counter-clockwise, then the middles of the sides 1-2, 2-3, 3-1. */
export interface SectionTriangles {
  /** Six node numbers per element. */
  readonly elements: Int32Array;
  /** As those of the quadrilaterals, one per element. */
  readonly material: Int32Array;
  readonly axes: readonly MaterialAxes[];
}

/**
 * Direction of the tangent t of the material; the normal n is t turned by +90 degrees. 'straight': t at `angle` from x.
 * 'arc': n points to the centre. 'draped': t follows plies that run as they please.
 */
export type MaterialAxes =
  | { readonly kind: 'straight'; readonly angle: number }
  | { readonly kind: 'arc'; readonly x: number; readonly y: number }
  | { readonly kind: 'draped'; angle(x: number, y: number): number };

/** A mesh with what its elements are made of. */
export interface SectionBody {
  readonly mesh: SectionMesh;
  readonly materials: readonly SectionStiffness[];
}

/** Angle of t at a place, radians. */
export function tangentAngle(axes: MaterialAxes, x: number, y: number): number {
  switch (axes.kind) {
    case 'straight':
      return axes.angle;
    case 'arc':
      return Math.atan2(axes.y - y, axes.x - x) - Math.PI / 2;
    case 'draped':
      return axes.angle(x, y);
  }
}

/** One number for a side, whichever way round its two ends are named. */
export const sideKey = (a: number, b: number): number => Math.min(a, b) * 2 ** 26 + Math.max(a, b);
