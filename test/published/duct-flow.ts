import { apparentFriction, gnielinski, nusselt, pressureLoss } from '../../packages/core/src/flow/index.js';
import type { Publication } from './check.js';

/** Darcy friction factor of developed turbulent flow in a smooth tube. */
const darcy = (reynolds: number) => (4 * apparentFriction(reynolds, 16, 1e12)) / reynolds;

/** What a long tube costs beyond Hagen and Poiseuille, and beyond the sharp edge of its inlet, over density times velocity squared. */
function hagenbach(): number {
  const tube = { area: Math.PI / 4, perimeter: Math.PI, conductance: Math.PI / 128, length: 1000 };
  const liquid = { viscosity: 1e-9, density: 1e-9 };
  const flow = (500 * liquid.viscosity * Math.PI) / (4 * liquid.density);
  const velocity = flow / tube.area;
  const developed = (flow * liquid.viscosity * tube.length) / tube.conductance;
  return (pressureLoss(tube, liquid, tube.length, flow) - developed) / (liquid.density * velocity ** 2) - 0.25;
}

export const ductFlow: Publication = {
  title: 'Flow and heat in a round tube',
  source:
    'smooth-wall friction: Prandtl, 1/sqrt(f) = 2 log10(Re sqrt(f)) - 0.8, in White, Fluid Mechanics; run-in: Boussinesq (1891), 1.12 density velocity^2; heat: Gnielinski (1976), example in Rohsenow, Hartnett & Cho, Handbook of Heat Transfer (1998), and Graetz',
  checks: [
    { quantity: 'Darcy friction factor at Re 10,000', published: 0.03089, compute: () => darcy(1e4), tolerance: 0.01 },
    { quantity: 'Darcy friction factor at Re 100,000', published: 0.01799, compute: () => darcy(1e5), tolerance: 0.01 },
    {
      quantity: 'Darcy friction factor at Re 1,000,000',
      published: 0.01165,
      compute: () => darcy(1e6),
      tolerance: 0.01,
    },
    { quantity: 'Hagenbach correction of a long tube', published: 1.12, compute: hagenbach, tolerance: 0.01 },
    {
      quantity: 'Nusselt number at Re 100,000, Pr 1.2, Darcy friction 0.0185',
      published: 254.63,
      compute: () => gnielinski(1e5, 1.2, 0.0185),
      tolerance: 0.0001,
    },
    {
      quantity: 'Nusselt number of laminar flow in a long tube, wall of one temperature',
      published: 3.657,
      compute: () => nusselt(1000, 7, 1e9),
      tolerance: 0.01,
    },
  ],
};
