import { type Ply, sectionStiffness } from '../../packages/core/src/material/index.js';
import { nodalStress, type Zone } from '../../packages/core/src/mesh/triangle/index.js';
import { nodesOn, quarterRing, roundZone, sliding, solveRing } from '../fixtures/ring-mesh.js';
import { referencePly } from '../fixtures/tee-reference.js';
import { once, type Publication } from './check.js';

const resin: Ply = {
  E1: 3500,
  E2: 3500,
  nu12: 0.35,
  nu23: 0.35,
  G12: 3500 / 2.7,
  alpha1: 55e-6,
  alpha2: 55e-6,
  transverseTension: 60,
  interlaminarShear: 60,
};
const deltaT = -100;
/** Bore, interface and outside: an inner tube of resin in one of fibres along z. */
const [bore, seam, outside] = [0.5, 1, 1.6] as const;

/** Plane-strain bulk modulus and shear modulus of a material that is isotropic in the plane. */
function moduli({ E1, E2, nu12, nu23 }: Ply) {
  return { k: 1 / ((2 * (1 - nu23)) / E2 - (4 * nu12 ** 2) / E1), G: E2 / (2 * (1 + nu23)) };
}

/**
 * Seam pressure and axial strain from Lame's tubes: radial strains match at the seam, axial forces cancel.
 * A tube's free strain in the plane is `(alpha2 + nu12 alpha1) dT - nu12 eps_z`.
 */
function closedForm() {
  const [a, b, c] = [bore ** 2, seam ** 2, outside ** 2];
  const [inner, outer] = [moduli(resin), moduli(referencePly)];
  const free = (ply: Ply) => (ply.alpha2 + ply.nu12 * ply.alpha1) * deltaT;
  // Radial strain u/r at the seam per pressure, outward positive.
  const soft = -(b / (2 * inner.k) + a / (2 * inner.G)) / (b - a);
  const stiff = (b / (2 * outer.k) + c / (2 * outer.G)) / (c - b);
  // Axial force / pi: E1 (eps - alpha1 dT) + nu12 (s_r + s_t), whose sum is -2 p b/(b - a) inside and 2 p b/(c - b) outside.
  const area = [b - a, c - b] as const;
  const axial = resin.E1 * area[0] + referencePly.E1 * area[1];
  const thermal = deltaT * (resin.E1 * area[0] * resin.alpha1 + referencePly.E1 * area[1] * referencePly.alpha1);
  const perPressure = 2 * b * (referencePly.nu12 - resin.nu12);
  // axial eps + perPressure p = thermal; (stiff - soft) p + (nu_in - nu_out) eps = free_in - free_out
  const contraction = resin.nu12 - referencePly.nu12;
  const mismatch = free(resin) - free(referencePly);
  const determinant = axial * (stiff - soft) - perPressure * contraction;
  return {
    pressure: (axial * mismatch - contraction * thermal) / determinant,
    strainZ: (thermal * (stiff - soft) - perPressure * mismatch) / determinant,
  };
}

const cylinder = once(() => {
  const rows = 6;
  const step = (from: number, to: number, j: number) => from * (to / from) ** (j / rows);
  const radii = [
    ...Array.from({ length: rows }, (_, j) => step(bore, seam, j)),
    ...Array.from({ length: rows + 1 }, (_, j) => step(seam, outside, j)),
  ];
  const zone = (ply: Ply): Zone => roundZone(sectionStiffness({ angle: 90, ply }));
  const zones = Array.from({ length: 2 * rows }, (_, j) => zone(j < rows ? resin : referencePly));
  const mesh = quarterRing(radii, 10, zones);
  const load = new Float64Array(2 * mesh.x.length + 1);
  const u = solveRing(mesh, load, sliding(mesh, 'start', 'end'), deltaT, 'free');
  const seamNode = nodesOn(mesh, 'start').find((node) => Math.abs(mesh.x[node]! - seam) < 1e-12)!;
  const boreNode = nodesOn(mesh, 'start').find((node) => Math.abs(mesh.x[node]! - bore) < 1e-12)!;
  const onSide = (first: number, last: number, node: number) =>
    nodalStress(mesh, u, deltaT, (row) => row >= first && row < last).get(node)!;
  return {
    radial: (onSide(0, rows, seamNode).xx + onSide(rows, 2 * rows, seamNode).xx) / 2,
    boreHoop: onSide(0, rows, boreNode).yy,
    strainZ: u.at(-1)!,
  };
});

export const bimaterialCylinder: Publication = {
  title: 'Two bonded tubes cooled by 100 K, no axial force',
  source:
    'Lame (1852) for each tube, joined here by equal displacement at the seam and zero axial force; ' +
    'Timoshenko & Goodier, Theory of Elasticity, sections 28 and 151',
  checks: [
    {
      quantity: 'mesh: radial stress at the seam',
      published: -closedForm().pressure,
      compute: () => cylinder().radial,
      tolerance: 0.001,
    },
    {
      quantity: 'mesh: hoop stress at the bore',
      published: (-2 * closedForm().pressure * seam ** 2) / (seam ** 2 - bore ** 2),
      compute: () => cylinder().boreHoop,
      tolerance: 0.002,
    },
    {
      quantity: 'mesh: axial strain',
      published: closedForm().strainZ,
      compute: () => cylinder().strainZ,
      tolerance: 0.0001,
    },
  ],
};
