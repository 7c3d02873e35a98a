import type { Layup, Ply } from '../material/index.js';

/** Cross-section of a web pulled off a skin (mechanics: x right, y up, z along the channel; mm, MPa, N, K). */
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

/** An infinite sheet of one in-plane isotropic material under far-field stress. */
export interface PlateHost {
  readonly kind: 'plate';
  readonly material: Ply;
}

export type Joint = TeeJoint | PlateHost;

/**
 * What acts on a joint, at its given size; every load is linear and solved as a unit load.
 * Absent loads do not act. A case is a combination of these.
 */
export interface Loads {
  /** Vertical force on the web top, N per mm of joint length. */
  readonly pull?: { readonly force: number };
  /** Horizontal force on the web top, N per mm of joint length, towards +x. */
  readonly side?: { readonly force: number };
  /** Bending moment at both skin ends, N mm per mm of joint length; positive opens the foot (tension at the skin's top). */
  readonly moment?: { readonly moment: number };
  /** Uniform temperature change from the stress-free state, K. */
  readonly cure?: { readonly deltaT: number };
  /** Pressure inside the channel, MPa. */
  readonly pressure?: { readonly pressure: number };
  /** Far-field stress of a plate, MPa. */
  readonly farField?: { readonly sx: number; readonly sy: number; readonly txy: number };
}

export type LoadName = keyof Loads;

/** A combination of loads to survive: factor per load name. */
export interface LoadCase {
  readonly name: string;
  readonly factors: Readonly<Partial<Record<LoadName, number>>>;
}
