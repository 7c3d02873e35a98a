import { sectionStiffness } from '../../packages/core/src/material/index.js';
import { addTraction, nodalStress } from '../../packages/core/src/mesh/triangle/index.js';
import { nodesOn, quarterRing, roundZone, sliding, solveRing } from '../fixtures/ring-mesh.js';
import { referencePly } from '../fixtures/tee-reference.js';
import { once, type Publication } from './check.js';

const inner = 1;
const outer = 2;
const pressure = 10;

/** Hoop stress at the inner and outer edge and the inner edge's displacement, on the x axis. */
const ring = once(() => {
  const zone = roundZone(sectionStiffness({ angle: 90, ply: referencePly }));
  const rows = 8;
  const radii = Array.from({ length: rows + 1 }, (_, j) => inner * (outer / inner) ** (j / rows));
  const mesh = quarterRing(
    radii,
    12,
    Array.from({ length: rows }, () => zone),
  );
  const load = new Float64Array(2 * mesh.x.length + 1);
  addTraction(mesh, mesh.sides.get('inner')!, (_x, _y, nx, ny) => [-pressure * nx, -pressure * ny], load);
  const u = solveRing(mesh, load, sliding(mesh, 'start', 'end'));
  const stress = nodalStress(mesh, u, 0, () => true);
  const onAxis = (side: string) => nodesOn(mesh, side).find((node) => Math.abs(mesh.y[node]!) < 1e-12)!;
  return {
    atInner: stress.get(onAxis('inner'))!.yy,
    atOuter: stress.get(onAxis('outer'))!.yy,
    displacement: u[2 * onAxis('inner')]!,
  };
});

const { E2, nu23, E1, nu12 } = referencePly;
const G = E2 / (2 * (1 + nu23));
const k = 1 / ((2 * (1 - nu23)) / E2 - (4 * nu12 ** 2) / E1);
const square = (inner / outer) ** 2;

export const lame: Publication = {
  title: 'Thick ring under internal pressure',
  source: 'Lame (1852); Timoshenko & Goodier, Theory of Elasticity, section 28; plane strain with G and bulk modulus k',
  checks: [
    {
      quantity: 'mesh: hoop stress at the inner edge, p (1 + c^2)/(1 - c^2)',
      published: (pressure * (1 + square)) / (1 - square),
      compute: () => ring().atInner,
      tolerance: 0.001,
    },
    {
      quantity: 'mesh: hoop stress at the outer edge, 2 p c^2/(1 - c^2)',
      published: (2 * pressure * square) / (1 - square),
      compute: () => ring().atOuter,
      tolerance: 0.001,
    },
    {
      quantity: 'mesh: displacement of the inner edge',
      published: ((pressure * inner) / (1 - square)) * (square / (2 * k) + 1 / (2 * G)),
      compute: () => ring().displacement,
      tolerance: 0.0001,
    },
  ],
};
