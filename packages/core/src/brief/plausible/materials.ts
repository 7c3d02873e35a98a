import { doubtsAbout, rounded, tellDoubts } from '../../input/index.js';
import type { BriefData } from '../schema.js';

type Material = BriefData['materials'][string];
type PlyData = Extract<Material, { E1: number }>;
type IsotropicData = Exclude<Material, PlyData>;

// Ranges: common practice, no source. They hold foams, resins, metals, and plies of glass, carbon, aramid and flax.

/** What is hardly meant in the user's own materials. */
export function implausibleMaterials(materials: BriefData['materials']): string[] {
  return Object.entries(materials).flatMap(([name, material]) => {
    const path = `materials.${name}`;
    return 'E' in material ? implausibleIsotropic(path, material) : implausiblePly(path, material);
  });
}

function implausiblePly(path: string, ply: PlyData): string[] {
  const said = tellDoubts([
    ...doubtsAbout(path, 'E1', ply.E1, stiffnessUnits, [2000, 700_000]),
    ...doubtsAbout(path, 'E2', ply.E2, stiffnessUnits, [800, 300_000]),
    ...doubtsAbout(path, 'G12', ply.G12, stiffnessUnits, [300, 120_000]),
    ...doubtsAbout(path, 'nu23', ply.nu23, '1', [0.1, 0.7]),
    ...doubtsAbout(path, 'alpha1', ply.alpha1, '1/K', [-2e-5, 1e-4]),
    ...doubtsAbout(path, 'alpha2', ply.alpha2, '1/K', [1e-6, 2e-4]),
    ...strengthDoubts(path, ply, 3),
  ]);
  return [...said, ...implausibleRatio(path, ply), ...(said.length > 0 ? [] : exchanged(path, ply))];
}

function implausibleRatio(path: string, { nu12, E1, E2 }: PlyData): string[] {
  const major = (nu12 * E1) / E2;
  if (nu12 >= 0 && nu12 < 0.1 && E1 > 2 * E2 && major > 0.15 && major < 0.5)
    return [
      `${path}.nu12: ${rounded(nu12)} is small for a ply; the smaller ratio nu21, of a pull across the fibres? Then write ${rounded(major)}`,
    ];
  return tellDoubts(doubtsAbout(path, 'nu12', nu12, '1', [0.01, 0.5]));
}

/** Direction 1 is along the fibres: stiffer, and growing less with temperature. */
function exchanged(path: string, { E1, E2, G12, alpha1, alpha2 }: PlyData): string[] {
  if (E1 < 0.9 * E2)
    return [
      `${path}: E1, along the fibres, is smaller than E2, across them (${rounded(E1)} and ${rounded(E2)} MPa); exchanged?`,
    ];
  if (E1 > 2 * E2 && alpha1 > alpha2)
    return [
      `${path}: alpha1, along the fibres, is larger than alpha2, across them (${rounded(alpha1)} and ${rounded(alpha2)} 1/K); exchanged?`,
    ];
  if (G12 > 0.6 * E1)
    return [
      `${path}.G12: ${rounded(G12)} MPa is too stiff in shear for E1 ${rounded(E1)} MPa; a material alike in all directions has E/(2(1 + nu)); check it`,
    ];
  return [];
}

function implausibleIsotropic(path: string, material: IsotropicData): string[] {
  return tellDoubts([
    ...doubtsAbout(path, 'E', material.E, stiffnessUnits, [15, 500_000]),
    ...doubtsAbout(path, 'nu', material.nu, '1', [0.05, 0.48]),
    ...doubtsAbout(path, 'alpha', material.alpha, '1/K', [5e-7, 4e-4]),
    ...strengthDoubts(path, material, material.E < 1000 ? 0.1 : 3),
  ]);
}

/** What is strong along the fibres is not meant here. */
function strengthDoubts(path: string, { transverseTension, interlaminarShear }: Material, least: number) {
  return [
    ...doubtsAbout(path, 'transverseTension', transverseTension, strengthUnits, [least, 400]),
    ...doubtsAbout(path, 'interlaminarShear', interlaminarShear, strengthUnits, [least, 300]),
  ];
}

const stiffnessUnits = ['MPa', 'GPa', 'kPa', 'Pa'] as const;
const strengthUnits = ['MPa', 'GPa', 'kPa'] as const;
