import { type Duct, hydraulicDiameter, type Liquid } from './duct-flow.js';

/** Above this Reynolds number on the hydraulic diameter duct flow need not be laminar (White, Viscous Fluid Flow: about 2300). */
export const laminarLimit = 2300;
/** From here on it is turbulent (VDI Heat Atlas, 2010, G1: about 10^4; friction and heat are those of turbulent flow from 4000 on). */
export const turbulentLimit = 4000;

/** How a liquid flows. */
export interface Regime {
  /** On hydraulic diameter and mean velocity. */
  readonly reynolds: number;
  /** Between Reynolds numbers of 2300 and 4000 flow is neither, or now one and now the other. */
  readonly kind: 'laminar' | 'transition' | 'turbulent';
}

export function flowRegime(
  duct: Pick<Duct, 'area' | 'perimeter'>,
  { viscosity, density }: Liquid,
  flowRate: number,
): Regime {
  const reynolds = (density * (flowRate / duct.area) * hydraulicDiameter(duct)) / viscosity;
  return {
    reynolds,
    kind: reynolds < laminarLimit ? 'laminar' : reynolds < turbulentLimit ? 'transition' : 'turbulent',
  };
}
