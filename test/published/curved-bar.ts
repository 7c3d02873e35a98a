import { sectionStiffness } from '../../packages/core/src/material/index.js';
import { addTraction, localStress, nodalStress } from '../../packages/core/src/mesh/triangle/index.js';
import { nodesOn, quarterRing, roundZone, sliding, solveRing } from '../fixtures/ring-mesh.js';
import { referencePly } from '../fixtures/tee-reference.js';
import { once, type Publication } from './check.js';

const inner = 3;
const outer = 5;
const material = sectionStiffness({ angle: 0, ply: referencePly });
const c = inner / outer;

/** Anisotropy `k^2 = beta_rr / beta_tt`, of the compliances left when the axial strain is zero. */
const [tt, , , , , nn] = material.stiffness as unknown as [number, ...number[]];
const k = Math.sqrt(tt / nn!);

/** Radial and hoop stress under end moments 1 that open the bar. */
function bending(r: number): { radial: number; hoop: number } {
  const p = (1 - c ** (k + 1)) / (1 - c ** (2 * k));
  const q = ((1 - c ** (k - 1)) / (1 - c ** (2 * k))) * c ** (k + 1);
  const g =
    (1 - c ** 2) / 2 -
    ((k / (k + 1)) * (1 - c ** (k + 1)) ** 2) / (1 - c ** (2 * k)) +
    ((k * c ** 2) / (k - 1)) * ((1 - c ** (k - 1)) ** 2 / (1 - c ** (2 * k)));
  const scale = 1 / (outer ** 2 * g);
  const x = r / outer;
  return {
    radial: scale * (1 - p * x ** (k - 1) - q * x ** (-k - 1)),
    hoop: scale * (1 - p * k * x ** (k - 1) + q * k * x ** (-k - 1)),
  };
}

const rows = 12;
const radii = Array.from({ length: rows + 1 }, (_, j) => inner + ((outer - inner) * j) / rows);
const ring = () =>
  quarterRing(
    radii,
    12,
    Array.from({ length: rows }, () => roundZone(material)),
  );
const middle = Math.cos(Math.PI / 4);

/** Stress `(n, t)` along the ray at 45 degrees. */
function alongRay(mesh: ReturnType<typeof ring>, u: Float64Array) {
  return [...nodalStress(mesh, u, 0, () => true).values()]
    .filter(({ x, y }) => Math.abs(x - y) < 1e-9)
    .map((stress) => {
      const [n, t] = localStress(stress, Math.PI / 4);
      return { r: stress.x / middle, radial: n, hoop: t };
    });
}

const bent = once(() => {
  const mesh = ring();
  const load = new Float64Array(2 * mesh.x.length + 1);
  addTraction(mesh, mesh.sides.get('end')!, (_x, y) => [-bending(y).hoop, 0], load);
  return alongRay(mesh, solveRing(mesh, load, [...sliding(mesh, 'start'), 2 * nodesOn(mesh, 'start')[0]!]));
});

const pressed = once(() => {
  const mesh = ring();
  const load = new Float64Array(2 * mesh.x.length + 1);
  addTraction(mesh, mesh.sides.get('inner')!, (_x, _y, nx, ny) => [-nx, -ny], load);
  return alongRay(mesh, solveRing(mesh, load, sliding(mesh, 'start', 'end')));
});

const most = (values: readonly number[]) => Math.max(...values.map(Math.abs));
const bars = Array.from({ length: 4001 }, (_, i) => inner + ((outer - inner) * i) / 4000);
/** Moment of the published hoop stress by the trapezoidal rule. */
const moment = () =>
  bars.reduce((sum, r, i) => sum + (i === 0 || i === 4000 ? 0.5 : 1) * r * bending(r).hoop, 0) / 2000;

const outwardHoop = (r: number) => {
  const scale = (k * c ** (k + 1)) / (1 - c ** (2 * k));
  return scale * ((r / outer) ** (k - 1) + (outer / r) ** (k + 1));
};

export const curvedBar: Publication = {
  title: 'Curved bar and ring of fibres that follow the curve',
  source:
    'Lekhnitskii, Anisotropic Plates (1968), sections 19 and 22 (bar under end moments, ring under pressure), formulas from memory; ' +
    'plane strain, k^2 = 11.3 for the carbon/epoxy ply along the bend',
  checks: [
    {
      quantity: 'the published hoop stress has the moment 1',
      published: 1,
      compute: () => Math.abs(moment()),
      tolerance: 0.0001,
    },
    {
      quantity: 'mesh: largest radial stress under moment 1 (radii 3 and 5)',
      published: most(bars.map((r) => bending(r).radial)),
      compute: () => most(bent().map(({ radial }) => radial)),
      tolerance: 0.002,
    },
    {
      quantity: 'mesh: hoop stress at the inner radius under moment 1',
      published: bending(inner).hoop,
      compute: () => bent().reduce((near, at) => (at.r < near.r ? at : near)).hoop,
      tolerance: 0.002,
    },
    {
      quantity: 'mesh: hoop stress at the inner radius under pressure 1',
      published: outwardHoop(inner),
      compute: () => pressed().reduce((near, at) => (at.r < near.r ? at : near)).hoop,
      tolerance: 0.002,
    },
  ],
};
