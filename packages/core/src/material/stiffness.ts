import { InputError } from '../errors.js';
import type { Layer, Ply } from './ply.js';

/**
 * A layer under generalised plane strain, in the axes of the section: tangent t, normal n (through the thickness),
 * z along the joint. Strain `(eps_t, eps_n, gamma_tn, eps_z)`, stress `(s_t, s_n, s_tn, s_z)`, MPa:
 * `stress = stiffness strain - thermal deltaT`.
 */
export interface SectionStiffness {
  /** Row-major 4 x 4. */
  readonly stiffness: Float64Array;
  /** MPa/K. */
  readonly thermal: Float64Array;
}

/** Elastic constants of a transversely isotropic ply, fibre direction 1: `C33 = C22`, `C13 = C12`, `C55 = G12`. */
interface PlyStiffness {
  readonly C11: number;
  readonly C12: number;
  readonly C22: number;
  readonly C23: number;
  readonly G23: number;
  readonly beta1: number;
  readonly beta2: number;
}

function plyStiffness(ply: Ply): PlyStiffness {
  const { E1, E2, nu12, nu23, G12, alpha1, alpha2 } = ply;
  const G23 = E2 / (2 * (1 + nu23));
  // Plane-strain bulk modulus, from the inverse of the compliance (Hashin, J. Appl. Mech. 46 (1979) 543-550).
  const k = 1 / ((2 * (1 - nu23)) / E2 - (4 * nu12 * nu12) / E1);
  if (!(E1 > 0 && E2 > 0 && G12 > 0 && G23 > 0 && k > 0 && Number.isFinite(k)))
    throw new InputError({
      path: 'ply',
      expected: 'E1, E2, G12 > 0, nu23 > -1 and nu12^2 < E1 (1 - nu23) / (2 E2)',
      received: `E1 ${E1}, E2 ${E2}, G12 ${G12}, nu12 ${nu12}, nu23 ${nu23}`,
      remedy: 'no elastic material has these constants: correct them',
    });
  const C12 = 2 * nu12 * k;
  const C11 = E1 + 4 * nu12 * nu12 * k;
  return {
    C11,
    C12,
    C22: k + G23,
    C23: k - G23,
    G23,
    beta1: C11 * alpha1 + 2 * C12 * alpha2,
    beta2: C12 * alpha1 + 2 * k * alpha2,
  };
}

/** A ply of G12 at `angle` degrees from t towards z, averaged with the one at `-angle`. */
function balancedStiffness(ply: Ply, angle: number): SectionStiffness {
  const { C11, C12, C22, C23, G23, beta1, beta2 } = plyStiffness(ply);
  const c2 = Math.cos((angle * Math.PI) / 180) ** 2;
  const s2 = 1 - c2;
  const mixed = C12 + 2 * ply.G12;
  const tt = C11 * c2 * c2 + 2 * mixed * c2 * s2 + C22 * s2 * s2;
  const zz = C11 * s2 * s2 + 2 * mixed * c2 * s2 + C22 * c2 * c2;
  const tz = (C11 + C22 - 4 * ply.G12) * c2 * s2 + C12 * (c2 * c2 + s2 * s2);
  const tn = C12 * c2 + C23 * s2;
  const nz = C12 * s2 + C23 * c2;
  const shear = ply.G12 * c2 + G23 * s2;
  return {
    stiffness: Float64Array.of(tt, tn, 0, tz, tn, C22, 0, nz, 0, 0, shear, 0, tz, nz, 0, zz),
    thermal: Float64Array.of(beta1 * c2 + beta2 * s2, beta2, 0, beta1 * s2 + beta2 * c2),
  };
}

function average(parts: readonly SectionStiffness[]): SectionStiffness {
  const mean = (pick: (part: SectionStiffness) => Float64Array) =>
    pick(parts[0]!).map((_, i) => parts.reduce((sum, part) => sum + pick(part)[i]!, 0) / parts.length);
  return { stiffness: mean((part) => part.stiffness), thermal: mean((part) => part.thermal) };
}

/**
 * Stiffness and thermal stress of a layer in the axes of the section. An angle other than 0 and 90 is taken as a balanced
 * pair: the averages of the two rotated stiffnesses and thermal stresses, which drops the shear couplings to z (so a
 * single off-axis ply is averaged with its mirror image, too). 'quasi-isotropic' averages 0, 45, -45 and 90 alike.
 * Throws `InputError` for constants that no elastic material has.
 */
export function sectionStiffness(layer: Pick<Layer, 'angle' | 'ply'>): SectionStiffness {
  if (layer.angle === 'quasi-isotropic')
    return average([0, 45, -45, 90].map((angle) => balancedStiffness(layer.ply, angle)));
  return balancedStiffness(layer.ply, layer.angle);
}

/** A material that is isotropic in the plane of the section: a filler of fibres along z, or resin. */
export interface InPlaneConstants {
  /** Shear modulus, MPa. */
  readonly G: number;
  /** Plane-strain bulk modulus, MPa. */
  readonly k: number;
  /** Kolosov's constant of plane strain, `1 + 2 G / k`. */
  readonly kappa: number;
  /** Free in-plane strain is `expansion deltaT - contraction strainZ`: 1/K and 1. */
  readonly expansion: number;
  readonly contraction: number;
}

/** In-plane constants of a filler whose fibres run along z; `k = (C22 + C23) / 2`. Throws as `sectionStiffness`. */
export function inPlaneConstants(ply: Ply): InPlaneConstants {
  const { C22, C23, G23 } = plyStiffness(ply);
  const k = (C22 + C23) / 2;
  return {
    G: G23,
    k,
    kappa: 1 + (2 * G23) / k,
    expansion: ply.alpha2 + ply.nu12 * ply.alpha1,
    contraction: ply.nu12,
  };
}
