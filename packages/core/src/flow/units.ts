import type { Liquid } from './duct-flow.js';

// Data-sheet units in mm, N, MPa, s (mass in t = N s^2/mm).

/** mPa s in MPa s */
const millipascalSecond = 1e-9;
/** mN/m in N/mm */
export const millinewtonPerMetre = 1e-6;
/** kg/m3 in t/mm3 */
const kilogramPerCubicMetre = 1e-12;
/** Standard atmosphere, MPa (exact by definition). */
export const atmosphere = 0.101325;

/** A liquid of a data sheet in the units of the joint. */
export function liquidOf({ viscosity, density }: { readonly viscosity: number; readonly density: number }): Liquid {
  return { viscosity: viscosity * millipascalSecond, density: density * kilogramPerCubicMetre };
}
