import type { Layup, Ply } from '../../material/index.js';
import type { Pocket } from '../laminate/index.js';

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
  /** Where the channel lies, unless one of known outline does: then that is looked for in the filler, which is otherwise whole but for one of known outline. */
  readonly pocket?: TeePocket;
  /** Beside a channel in a pocket: one of known outline in the filler, in the joint's coordinates. */
  readonly fillerChannel?: KnownOutline;
}

/** A channel of known outline: an even number of points round it, counter-clockwise, closer together where it bends; 200 and more. Elements have their ends and middles there by turns. */
export type KnownOutline = readonly (readonly [x: number, y: number])[];

/** A pocket of resin between or in the plies of the right half's bend or foot, or of the skin. */
export interface TeePocket {
  readonly in: 'bend' | 'foot' | 'skin';
  /** Of its middle: angle round the bend from its foot end, radians; or distance from the middle of the joint, mm. */
  readonly at: number;
  /** Plies counted from 0 at the bottom of their laminate: in bend and foot from the filler outward, in the skin from its lower face up. */
  readonly form: Pocket;
  /** Isotropic, or unidirectional along z. */
  readonly resin: Ply;
  /** A channel of known outline that stands in it, in the pocket's frame: x from its middle along the plies, y from the bottom face of their laminate. */
  readonly channel?: KnownOutline;
}
