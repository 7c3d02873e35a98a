import { type Ply, sectionStiffness } from '../../packages/core/src/material/index.js';
import type { Publication } from './check.js';

/** T300/5208, the worked examples' material; G23 does not enter the plane of the laminate. */
const ply: Ply = {
  E1: 181000,
  E2: 10300,
  nu12: 0.28,
  nu23: 0.4,
  G12: 7170,
  alpha1: 0.02e-6,
  alpha2: 22.5e-6,
  transverseTension: 40,
  interlaminarShear: 68,
};

/** In-plane stiffness (tangent, z) and thermal stress left when no stress acts through the thickness. */
function inPlane(angle: number | 'quasi-isotropic') {
  const { stiffness, thermal } = sectionStiffness({ angle, ply });
  const entry = (i: number, j: number) =>
    stiffness[4 * i + j]! - (stiffness[4 * i + 1]! * stiffness[4 + j]!) / stiffness[5]!;
  const load = (i: number) => thermal[i]! - (stiffness[4 * i + 1]! * thermal[1]!) / stiffness[5]!;
  return { tt: entry(0, 0), tz: entry(0, 3), zz: entry(3, 3), loadT: load(0), loadZ: load(3) };
}

const modulus = (angle: number | 'quasi-isotropic') => {
  const { tt, tz, zz } = inPlane(angle);
  return tt - tz ** 2 / zz;
};

const expansion = (angle: number | 'quasi-isotropic') => {
  const { tt, tz, zz, loadT, loadZ } = inPlane(angle);
  return (zz * loadT - tz * loadZ) / (tt * zz - tz ** 2);
};

export const laminate: Publication = {
  title: 'In-plane constants and expansion of laminates, T300/5208',
  source:
    'Tsai & Hahn, Introduction to Composite Materials (1980), worked tables for T300/5208 (E1 181, E2 10.3, G12 7.17 GPa, nu12 0.28), ' +
    'values from memory to four digits; expansion after classical lamination theory from alpha1 0.02e-6, alpha2 22.5e-6 /K',
  checks: [
    { quantity: 'ply: Q11, MPa', published: 181_800, compute: () => inPlane(0).tt, tolerance: 0.001 },
    { quantity: 'ply: Q22, MPa', published: 10_350, compute: () => inPlane(0).zz, tolerance: 0.001 },
    { quantity: 'ply: Q12, MPa', published: 2897, compute: () => inPlane(0).tz, tolerance: 0.001 },
    { quantity: '+-45 pair: Q11, MPa', published: 56_660, compute: () => inPlane(45).tt, tolerance: 0.001 },
    { quantity: '+-45 pair: Q12, MPa', published: 42_320, compute: () => inPlane(45).tz, tolerance: 0.001 },
    { quantity: '+-45 pair: modulus, MPa', published: 25_050, compute: () => modulus(45), tolerance: 0.002 },
    {
      quantity: 'quasi-isotropic: modulus, MPa',
      published: 69_680,
      compute: () => modulus('quasi-isotropic'),
      tolerance: 0.002,
    },
    {
      quantity: "quasi-isotropic: Poisson's ratio",
      published: 0.296,
      compute: () => inPlane('quasi-isotropic').tz / inPlane('quasi-isotropic').zz,
      tolerance: 0.003,
    },
    {
      quantity: 'quasi-isotropic: expansion, 1e-6/K',
      published: ((181.8 + 2.897) * 0.02 + (2.897 + 10.35) * 22.5) / (181.8 + 2 * 2.897 + 10.35),
      compute: () => 1e6 * expansion('quasi-isotropic'),
      tolerance: 0.005,
    },
  ],
};
