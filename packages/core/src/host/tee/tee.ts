import type { Layup, Ply } from '../../material/index.js';

/** Cross-section of a web pulled off a skin (x right, y up, z along the channel; mm, MPa, N, K). */
export interface TeeJoint {
  readonly kind: 'tee';
  /** Radius of the bend surface that faces the filler; larger than the overlaminate's thickness. */
  readonly bendRadius: number;
  /** From the filler outward. */
  readonly overlaminate: Layup;
  readonly webHeight: number;
  readonly footLength: number;
  readonly skinHalfSpan: number;
  /** From the filler's base (y = 0) downward. */
  readonly skin: Layup;
  /** Unidirectional along z, or isotropic. */
  readonly filler: Ply;
  readonly support: 'clamped' | 'simple';
}
