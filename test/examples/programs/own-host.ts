// A host of one's own, given as condensed stiffness and loads on a contour: resin in a bore, held all around by an elastic bed.
import {
  type Condensed,
  type CondensedHost,
  contourBasis,
  createCurveNodes,
  createStressModel,
  ellipseFamily,
  inPlaneConstants,
  type Ply,
  reduceCondensed,
} from '@lumenfront/core';

const bore = 2; // radius, mm
const bed = 4000; // traction to displacement, MPa/mm
const [E, nu, alpha] = [3000, 0.35, 60e-6];
const G = E / (2 * (1 + nu));
const strengths = { transverseTension: 50, interlaminarShear: 50 };
const resin: Ply = { E1: E, E2: E, nu12: nu, nu23: nu, G12: G, alpha1: alpha, alpha2: alpha, ...strengths };

/** The bore in quadratic edges, and the bed's consistent stiffness: the mass matrix of every edge, times the bed. */
const edges = 60;
const count = 2 * edges;
const at = (radius: (angle: number) => number) =>
  Float64Array.from({ length: count }, (_, j) => radius((2 * Math.PI * j) / count));
const contour = { x: at((a) => bore * Math.cos(a)), y: at((a) => bore * Math.sin(a)), closed: true };
const order = 2 * count + 1; // u, v of every node, then the change of temperature, which the bed does not feel
const matrix = new Float64Array(order * order);
const mass = [
  [4, 2, -1],
  [2, 16, 2],
  [-1, 2, 4],
];
for (let edge = 0; edge < edges; edge++)
  for (const [i, row] of mass.entries())
    for (const [k, share] of row.entries())
      for (const component of [0, 1]) {
        const [from, to] = [i, k].map((local) => 2 * ((2 * edge + local) % count) + component) as [number, number];
        matrix[from * order + to]! += (bed * share * ((2 * Math.PI * bore) / edges)) / 30;
      }
const outside: Condensed = { scalars: ['deltaT'], matrix };
const host: CondensedHost = { contour, supports: [{ whole: outside }] };
const cure = { name: 'cure', size: 'deltaT', scalar: 'deltaT', support: 0, symmetric: true };
const model = reduceCondensed('bore', host, resin, contourBasis(contour, 0, 0, 12), [cure]);

const hole = 0.5;
const nodes = createCurveNodes(64);
ellipseFamily({ mirror: true, xMin: -2, xMax: 2, yMin: -2, yMax: 2, edgeRadius: 0 }).place(
  [0, 2 * hole, 2 * hole],
  nodes,
);
const loads = { cure: { deltaT: -100 } };
const { worst } = createStressModel(model, loads, [{ name: 'cold', factors: { cure: 1 } }]).evaluate(nodes, false);

// Lamé's ring, held along the channel: u = A r + B / r, stress-free at the hole, and held by the bed at the bore.
const { kappa, expansion } = inPlaneConstants(resin);
const bulk = (2 * G) / (kappa - 1);
const ring = 1 - (hole / bore) ** 2;
// s_r(bore) = 2 bulk A' (1 - (hole / bore)^2) = -bed u(bore), with A = A' + free strain, B = bulk A' hole^2 / G.
const free = expansion * -100;
const strain = (-bed * free * bore) / (2 * bulk * ring + bed * (bore + (bulk * hole ** 2) / (G * bore)));
console.log((worst / (4 * bulk * strain)).toFixed(3)); // 1.000
