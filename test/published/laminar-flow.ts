import { conductanceAroundFibre, createConductance } from '../../packages/core/src/flow/index.js';
import { ellipseNodes } from '../fixtures/tee-reference.js';
import type { Publication } from './check.js';

const duct = (a: number, b: number) => createConductance(64)(ellipseNodes(a, b, [0, 1.25], 0, 64));
const ring = (radius: number) =>
  conductanceAroundFibre(ellipseNodes(1, 1, [0, 1.25], 0, 64), { x: 0, y: 1.25, radius });

export const laminarFlow: Publication = {
  title: 'Laminar flow through a straight channel',
  source:
    'Hagen (1839), Poiseuille (1840); Shah & London, Laminar Flow Forced Convection in Ducts (1978), and White, Viscous Fluid Flow: ' +
    'closed forms, and f Re of their tables from memory. Conductance: flow rate times viscosity over pressure gradient, mm4',
  checks: [
    {
      quantity: 'flow: conductance, circle of radius 0.25, pi r^4/8',
      published: (Math.PI * 0.25 ** 4) / 8,
      compute: () => duct(0.25, 0.25).conductance,
      tolerance: 1e-9,
    },
    {
      quantity: 'flow: conductance, ellipse 2:1, pi a^3 b^3/(4 (a^2 + b^2))',
      published: (Math.PI * 8) / (4 * 5),
      compute: () => duct(2, 1).conductance,
      tolerance: 1e-9,
    },
    { quantity: 'flow: f Re, circle', published: 16, compute: () => duct(1, 1).poiseuilleNumber, tolerance: 1e-9 },
    {
      quantity: 'flow: f Re, ellipse 2:1',
      published: 16.823,
      compute: () => duct(1, 0.5).poiseuilleNumber,
      tolerance: 0.0001,
    },
    {
      quantity: 'flow: f Re, ellipse 4:1',
      published: 18.24,
      compute: () => duct(1, 0.25).poiseuilleNumber,
      tolerance: 0.0001,
    },
    {
      quantity: 'flow: conductance, ring of radii 1 and 0.3 about a fibre',
      published: (Math.PI / 8) * (1 - 0.3 ** 4 - (1 - 0.3 ** 2) ** 2 / Math.log(1 / 0.3)),
      compute: () => ring(0.3).conductance,
      tolerance: 1e-9,
    },
    {
      quantity: 'flow: f Re, ring of radii 1 and 0.5 about a fibre',
      published: 23.81,
      compute: () => ring(0.5).poiseuilleNumber,
      tolerance: 0.0005,
    },
  ],
};
