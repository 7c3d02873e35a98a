import type { Layer, Ply } from '../../material/index.js';

/** A section of any form, meshed elsewhere (x right, y up, z along the channel; mm, MPa, N, K). */
export interface SectionJoint {
  readonly kind: 'section';
  readonly mesh: MeshText;
  /** Name of the surface that channels lie in: isotropic in the section, that is of resin or with fibres along the channel. */
  readonly filler: string;
  /** What each named surface of the mesh is made of. */
  readonly surfaces: Readonly<Record<string, SurfaceMaterial>>;
  readonly supports: readonly CurveSupport[];
  /** Force on named curves by the names of the loads. */
  readonly loads: Readonly<Record<string, readonly CurveForce[]>>;
}

/** A mesh file as MSH 4.1 text. In results and keys its hash stands for it. */
export interface MeshText {
  readonly file: string;
  readonly sha256: string;
  readonly text: string;
}

/** A material and where its fibres run. */
export interface SurfaceMaterial {
  readonly ply: Ply;
  /** From the tangent of the section, as in a layup. */
  readonly angle: Layer['angle'];
  /** Of that tangent: degrees from x, round a point, or as a named curve runs. */
  readonly tangent: number | { readonly around: readonly [number, number] } | { readonly along: string };
}

/** What a curve keeps. `under`: a cure and other changes of the whole part leave a part that is not mounted yet free: only supports under 'all', such as a plane of symmetry, hold it then. */
export interface CurveSupport {
  readonly curve: string;
  readonly hold: readonly ('x' | 'y')[];
  readonly under: 'loads' | 'all';
}

/**
 * What acts on a curve at a load of 1 N/mm, per length of channel: a force (N/mm) that is spread evenly along it, and a moment (N mm/mm, positive
 * counter-clockwise) whose traction grows with the distance from the middle of the curve, as that of bending does.
 */
export interface CurveForce {
  readonly curve: string;
  readonly force: readonly [x: number, y: number];
  readonly moment?: number;
}
