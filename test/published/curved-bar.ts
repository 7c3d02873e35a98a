import { factorize } from '../../packages/core/src/linear/index.js';
import { sectionStiffness } from '../../packages/core/src/material/index.js';
import {
  assembleBody,
  edgeLoad,
  joinBlocks,
  numberUnknowns,
  type SectionBody,
  stressRows,
} from '../../packages/core/src/mesh/quad/index.js';
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

/** The same bar of the quadrilaterals that hosts are made of: largest radial and inner hoop stress, at the places where their stress is read. */
const condensed = once(() => {
  const [columns, rows] = [24, 24];
  const { mesh, placed } = joinBlocks(
    [
      {
        columns,
        rows,
        at: (column, row) => {
          const angle = (Math.PI * column) / (4 * columns);
          const r = outer - ((outer - inner) * row) / (2 * rows);
          return [r * Math.cos(angle), r * Math.sin(angle)];
        },
        material: () => 0,
        axes: { kind: 'arc', x: 0, y: 0 },
      },
    ],
    1e-9,
  );
  const body: SectionBody = { mesh, materials: [material] };
  const { first } = placed[0]!;
  const element = (column: number, row: number) => first + row * columns + column;
  // The last column ends upright and is pulled along x; the first one begins on the x axis and slides along it.
  const end = Array.from({ length: rows }, (_, row) => {
    const node = (b: number) => mesh.elements[9 * element(columns - 1, row) + 3 * b + 2]!;
    return [node(0), node(1), node(2)] as const;
  });
  const load = edgeLoad(mesh, end, (_x, y) => [-bending(y).hoop, 0]);
  const unknowns = numberUnknowns(mesh.x.length, 1);
  const onAxis = [...mesh.y.keys()].filter((node) => Math.abs(mesh.y[node]!) < 1e-9);
  const fixed = [unknowns.strainZ, unknowns.deltaT, 2 * onAxis[0]!, ...onAxis.map((node) => 2 * node + 1)];
  const factor = factorize(assembleBody(body, [load]), { retained: [unknowns.load(0)], fixed });
  const u = factor.expand(Float64Array.of(1), 1);
  const stress = (row: number, b: number, component: number) => {
    const e = element(columns / 2, row);
    const of = stressRows(body, e, -1, b);
    let sum = 0;
    for (let i = 0; i < 18; i++) sum += of[20 * component + i]! * u[2 * mesh.elements[9 * e + (i >> 1)]! + (i & 1)]!;
    return sum;
  };
  const radial = Array.from({ length: rows }, (_, row) => [stress(row, -1, 1), stress(row, 1, 1)]).flat();
  return { radial: most(radial), inside: stress(rows - 1, 1, 0) };
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
      quantity: "hosts' quadrilaterals: largest radial stress under moment 1",
      published: most(bars.map((r) => bending(r).radial)),
      compute: () => condensed().radial,
      tolerance: 0.005,
    },
    {
      quantity: "hosts' quadrilaterals: hoop stress at the inner radius under moment 1",
      published: bending(inner).hoop,
      compute: () => condensed().inside,
      tolerance: 0.005,
    },
    {
      quantity: 'mesh: hoop stress at the inner radius under pressure 1',
      published: outwardHoop(inner),
      compute: () => pressed().reduce((near, at) => (at.r < near.r ? at : near)).hoop,
      tolerance: 0.002,
    },
  ],
};
