import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.js';
import { inPlaneConstants, layupFromPlies, layupThickness, type Ply, sectionStiffness } from './index.js';

/** T300/5208 graphite/epoxy of Tsai & Hahn, Introduction to Composite Materials (1980); nu23 and G23 do not enter. */
const t300: Ply = {
  E1: 181000,
  E2: 10300,
  nu12: 0.28,
  nu23: 0.42,
  G12: 7170,
  alpha1: 0.02e-6,
  alpha2: 22.5e-6,
  transverseTension: 40,
  interlaminarShear: 68,
};

/** Plane stress in the plane of the layer (s_n = 0): reduced stiffness (tt, tz, zz) and thermal stress (t, z). */
function reduced(angle: number | 'quasi-isotropic') {
  const { stiffness: C, thermal: b } = sectionStiffness({ angle, ply: t300 });
  const [t, n, z] = [0, 1, 3] as const;
  const q = (i: number, j: number) => C[4 * i + j]! - (C[4 * i + n]! * C[4 * n + j]!) / C[4 * n + n]!;
  const beta = (i: number) => b[i]! - (C[4 * i + n]! * b[n]!) / C[4 * n + n]!;
  return { tt: q(t, t), tz: q(t, z), zz: q(z, z), t: beta(t), z: beta(z) };
}

/** Free expansion of a layer under plane stress. */
function expansion(angle: number | 'quasi-isotropic') {
  const { tt, tz, zz, t, z } = reduced(angle);
  const determinant = tt * zz - tz * tz;
  return { t: (zz * t - tz * z) / determinant, z: (tt * z - tz * t) / determinant };
}

describe('sectionStiffness', () => {
  it('gives the reduced stiffness of classical lamination theory at 0 and 60 degrees', () => {
    // Kaw, Mechanics of Composite Materials (2006), worked examples of the same lamina (from memory).
    expect(reduced(0).tt / 1e3).toBeCloseTo(181.8, 1);
    expect(reduced(0).tz / 1e3).toBeCloseTo(2.897, 3);
    expect(reduced(0).zz / 1e3).toBeCloseTo(10.35, 2);
    expect(reduced(60).tt / 1e3).toBeCloseTo(23.65, 2);
    expect(reduced(60).tz / 1e3).toBeCloseTo(32.46, 2);
    expect(reduced(60).zz / 1e3).toBeCloseTo(109.4, 1);
  });

  it('gives the quasi-isotropic constants E = 69.7 GPa, nu = 0.30', () => {
    // Tsai & Hahn (1980), table of quasi-isotropic constants (from memory).
    const { tt, tz, zz } = reduced('quasi-isotropic');
    expect(zz).toBeCloseTo(tt, 6);
    expect((tt - (tz * tz) / tt) / 1e3).toBeCloseTo(69.68, 1);
    expect(tz / tt).toBeCloseTo(0.3, 2);
  });

  it('expands like the ply at 0 and 90 and by the closed form when quasi-isotropic', () => {
    expect(expansion(0).t / t300.alpha1).toBeCloseTo(1, 8);
    expect(expansion(0).z / t300.alpha2).toBeCloseTo(1, 8);
    expect(expansion(90).z / t300.alpha1).toBeCloseTo(1, 8);
    // Halpin & Pagano, AFML-TR-68-395 (1969), equal shares in all directions (from memory).
    const { E1, E2, nu12, alpha1, alpha2 } = t300;
    const closed = (alpha1 + alpha2) / 2 + (((alpha1 - alpha2) / 2) * (E1 - E2)) / (E1 + (1 + 2 * nu12) * E2);
    expect(expansion('quasi-isotropic').t / closed).toBeCloseTo(1, 8);
    expect(expansion('quasi-isotropic').z / closed).toBeCloseTo(1, 8);
  });

  it('keeps the invariants of a rotation about the normal', () => {
    const invariants = (angle: number) => {
      const { stiffness: C, thermal: b } = sectionStiffness({ angle, ply: t300 });
      const at = (i: number, j: number) => C[4 * i + j]!;
      // C_tztz of the rotated ply is not part of the section's stiffness; C_tt + C_zz + 2 C_tz needs no such term.
      return [at(0, 0) + at(3, 3) + 2 * at(0, 3), at(0, 1) + at(3, 1), at(1, 1), b[0]! + b[3]!, b[1]!];
    };
    for (const angle of [13, 45, 77, 90, -30])
      invariants(angle).forEach((value, i) => {
        expect(value / invariants(0)[i]!).toBeCloseTo(1, 12);
      });
  });

  it('inverts to the engineering constants of the ply', () => {
    const { stiffness: C } = sectionStiffness({ angle: 90, ply: t300 });
    // Strain of uniaxial stress along the fibres: (-nu12, -nu12, 0, 1).
    const strain = [-t300.nu12, -t300.nu12, 0, 1];
    const stress = [0, 1, 2, 3].map((i) => strain.reduce((sum, e, j) => sum + C[4 * i + j]! * e, 0));
    expect(stress[3]! / t300.E1).toBeCloseTo(1, 12);
    for (const i of [0, 1, 2]) expect(Math.abs(stress[i]!)).toBeLessThan(1e-9 * t300.E1);
  });

  it('takes a ply and its mirror image as one', () => {
    expect(sectionStiffness({ angle: -45, ply: t300 })).toEqual(sectionStiffness({ angle: 45, ply: t300 }));
  });

  it('refuses constants that no material has, NaN among them', () => {
    for (const bad of [{ nu12: 3 }, { E1: -1 }, { nu23: 1 }, { G12: Number.NaN }])
      expect(() => sectionStiffness({ angle: 0, ply: { ...t300, ...bad } })).toThrow(InputError);
  });
});

describe('inPlaneConstants', () => {
  it('agrees with an isotropic solid: kappa = 3 - 4 nu, free strain (1 + nu) alpha', () => {
    const [E, nu, alpha] = [3500, 0.35, 60e-6];
    const resin: Ply = {
      ...t300,
      E1: E,
      E2: E,
      nu12: nu,
      nu23: nu,
      G12: E / (2 + 2 * nu),
      alpha1: alpha,
      alpha2: alpha,
    };
    const { G, kappa, expansion } = inPlaneConstants(resin);
    expect(G).toBeCloseTo(E / (2 + 2 * nu), 9);
    expect(kappa).toBeCloseTo(3 - 4 * nu, 12);
    expect(expansion).toBeCloseTo((1 + nu) * alpha, 15);
  });

  it('frees a strained and heated filler of in-plane stress', () => {
    const { expansion, contraction } = inPlaneConstants(t300);
    const { stiffness: C, thermal: b } = sectionStiffness({ angle: 90, ply: t300 });
    const [strainZ, deltaT] = [1e-3, -150];
    const free = expansion * deltaT - contraction * strainZ;
    expect((C[0]! + C[1]!) * free + C[3]! * strainZ - b[0]! * deltaT).toBeCloseTo(0, 9);
  });
});

describe('layupFromPlies', () => {
  it('merges runs of plies that lean alike, to either side', () => {
    const layup = layupFromPlies([45, -45, 0, 90, 90, 0, 135, 45], 0.25, t300);
    expect(layup.map((layer) => [layer.angle, layer.thickness])).toEqual([
      [45, 0.5],
      [0, 0.25],
      [90, 0.5],
      [0, 0.25],
      [45, 0.5],
    ]);
    expect(layupThickness(layup)).toBeCloseTo(2, 12);
  });
});
