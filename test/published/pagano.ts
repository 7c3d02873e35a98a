import { factorize } from '../../packages/core/src/linear/index.js';
import type { SectionStiffness } from '../../packages/core/src/material/index.js';
import {
  assembleBody,
  edgeLoad,
  graded,
  joinBlocks,
  numberUnknowns,
  type SectionBody,
  stressRows,
  withMiddles,
} from '../../packages/core/src/mesh/quad/index.js';
import { once, type Publication } from './check.js';

const rows = 36;

/** Stiffness `(t, n, tn, z)` of the source's ply, whose transverse shear modulus no transversely isotropic ply has. */
function stiffness(along: boolean): SectionStiffness {
  const [EL, ET, GLT, GTT, nu] = [25, 1, 0.5, 0.2, 0.25];
  // Compliance over the axes L (fibres) and two transverse ones, T along z or the section, N through the thickness.
  const [sL, sT, sLT, sTN] = [1 / EL, 1 / ET, -nu / EL, -nu / ET];
  const S = along
    ? [sL, sLT, sLT, sLT, sT, sTN, sLT, sTN, sT] // t = L, n = T, z = T
    : [sT, sTN, sLT, sTN, sT, sLT, sLT, sLT, sL]; // t = T, n = T, z = L
  const [a, b, c, d, e, f, g, h, i] = S as [number, number, number, number, number, number, number, number, number];
  const det = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  const C = [
    e * i - f * h,
    c * h - b * i,
    b * f - c * e,
    f * g - d * i,
    a * i - c * g,
    c * d - a * f,
    d * h - e * g,
    b * g - a * h,
    a * e - b * d,
  ];
  const [tt, tn, tz, , nn, nz, , , zz] = C.map((value) => value / det) as number[];
  const shear = along ? GLT : GTT;
  return {
    stiffness: Float64Array.of(tt!, tn!, 0, tz!, tn!, nn!, 0, nz!, 0, 0, shear, 0, tz!, nz!, 0, zz!),
    thermal: new Float64Array(4),
  };
}

/** A 0/90/0 strip of thickness 1 and length S, simply supported, under a pressure sin(pi x / S) on its top; half of it, plane strain. */
function solveStrip(S: number) {
  const xs = withMiddles(graded(S / 2, () => S / 24));
  const ys = withMiddles(Array.from({ length: rows + 1 }, (_, row) => row / rows - 0.5));
  const { mesh, placed } = joinBlocks(
    [
      {
        columns: (xs.length - 1) / 2,
        rows,
        at: (column, row) => [xs[column]!, ys[row]!],
        material: (row) => (3 * row < rows || 3 * row >= 2 * rows ? 0 : 1),
        axes: { kind: 'straight', angle: 0 },
      },
    ],
    1e-9,
  );
  const body: SectionBody = { mesh, materials: [stiffness(true), stiffness(false)] };
  const { first, columns } = placed[0]!;
  const element = (column: number, row: number) => first + row * columns + column;
  const top = Array.from({ length: columns }, (_, column) => {
    const node = (a: number) => mesh.elements[9 * element(column, rows - 1) + 6 + a]!;
    return [node(0), node(1), node(2)] as const;
  });
  const load = edgeLoad(mesh, top, (x) => [0, Math.sin((Math.PI * x) / S)]);
  const unknowns = numberUnknowns(mesh.x.length, 1);
  // Ends: no vertical displacement; the middle of the strip: no horizontal one.
  const fixed = [unknowns.strainZ, unknowns.deltaT];
  mesh.x.forEach((x, node) => {
    if (x < 1e-9) fixed.push(2 * node + 1);
    if (x > S / 2 - 1e-9) fixed.push(2 * node);
  });
  const factor = factorize(assembleBody(body, [load]), { retained: [unknowns.load(0)], fixed });
  const u = factor.expand(Float64Array.of(1), 1);
  const stress = (column: number, row: number, a: number, b: number, component: number) => {
    const e = element(column, row);
    const rows = stressRows(body, e, a, b);
    let sum = 0;
    for (let i = 0; i < 18; i++) sum += rows[20 * component + i]! * u[2 * mesh.elements[9 * e + (i >> 1)]! + (i & 1)]!;
    return sum;
  };
  const middle = mesh.x.findIndex((x, node) => x > S / 2 - 1e-9 && Math.abs(mesh.y[node]!) < 1e-9);
  return {
    deflection: (100 * u[2 * middle + 1]!) / (S * S) ** 2,
    top: stress(columns - 1, rows - 1, 1, 1, 0),
    bottom: stress(columns - 1, 0, 1, -1, 0),
    shear: (stress(0, rows / 2 - 1, -1, 1, 2) + stress(0, rows / 2, -1, -1, 2)) / 2,
  };
}

const thick = once(() => solveStrip(4));
const slender = once(() => solveStrip(10));

export const pagano: Publication = {
  title: 'Bent laminate 0/90/0 under a sine load: the quadrilaterals that hosts are made of',
  source:
    'Pagano, J. Compos. Mater. 3 (1969) 398-411; the exact solution recomputed to five digits for E_L/E_T 25, G_LT/E_T 0.5, G_TT/E_T 0.2, ' +
    'nu 0.25; deflection 100 E_T w / (q S^4), stresses by q',
  checks: [
    {
      quantity: 'deflection, span 4 thicknesses',
      published: 2.8872,
      tolerance: 0.001,
      compute: () => thick().deflection,
    },
    { quantity: 'bending stress at the top', published: 18.808, tolerance: 0.003, compute: () => thick().top },
    { quantity: 'bending stress at the bottom', published: -18.104, tolerance: 0.003, compute: () => thick().bottom },
    {
      quantity: 'shear stress at the middle of the end',
      published: 1.4316,
      tolerance: 0.003,
      compute: () => thick().shear,
    },
    {
      quantity: 'deflection, span 10 thicknesses',
      published: 0.9316,
      tolerance: 0.001,
      compute: () => slender().deflection,
    },
  ],
};
