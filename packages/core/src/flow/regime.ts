import { kilogramPerCubicMetre, millipascalSecond } from './units.js';

/** Above this Reynolds number on the hydraulic diameter duct flow need not be laminar (White, Viscous Fluid Flow: about 2300). */
export const laminarLimit = 2300;

/** Whether laminar, fully developed flow may be assumed. */
export interface Regime {
  /** On hydraulic diameter and mean velocity. */
  readonly reynolds: number;
  /** Reynolds number below 2300. */
  readonly laminar: boolean;
}

/** In mm3/s, at a pressure gradient in MPa/mm and a viscosity in mPa s. */
export function laminarFlowRate(flowFactor: number, gradient: number, viscosity: number): number {
  return (flowFactor * gradient) / (viscosity * millipascalSecond);
}

/**
 * Regime of a duct at a pressure gradient in MPa/mm, viscosity in mPa s and density in kg/m3. Beyond the limit, flow is
 * slower than the laminar figures say.
 */
export function flowRegime(
  duct: { readonly area: number; readonly perimeter: number; readonly flowFactor: number },
  gradient: number,
  viscosity: number,
  density: number,
): Regime {
  const flowRate = laminarFlowRate(duct.flowFactor, gradient, viscosity);
  // velocity * hydraulic diameter = 4 flow rate / perimeter
  const reynolds = (4 * flowRate * density * kilogramPerCubicMetre) / (duct.perimeter * viscosity * millipascalSecond);
  return { reynolds, laminar: reynolds < laminarLimit };
}
