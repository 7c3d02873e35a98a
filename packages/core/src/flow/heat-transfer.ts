import { cube, power } from '../power.js';
import { laminarLimit, turbulentLimit } from './regime.js';

/**
 * Nusselt number on the hydraulic diameter, averaged over the length of a duct whose wall has one temperature; the liquid enters with one
 * velocity and one temperature.
 *
 * Laminar, round tube: Gnielinski in VDI Heat Atlas (2010), G1. Turbulent: Gnielinski, Int. Chem. Eng. 16 (1976) 359-368, for Prandtl numbers
 * of 0.5 to 2000 and Reynolds numbers to 5e6, with the friction of Petukhov and the run-in of Hausen. Between Reynolds numbers of 2300 and
 * 4000 linear from one to the other (Gnielinski, Int. J. Heat Mass Transfer 63 (2013) 134-140). Turbulent heat holds for other outlines
 * on their hydraulic diameter; laminar developed heat is 3.66 in a tube, 2.98 in a square and 2.47 in a triangle (Shah & London 1978).
 *
 * @param diameters length over hydraulic diameter
 */
export function nusselt(reynolds: number, prandtl: number, diameters: number): number {
  if (reynolds <= laminarLimit) return laminarNusselt(reynolds, prandtl, diameters);
  if (reynolds >= turbulentLimit) return turbulentNusselt(reynolds, prandtl, diameters);
  const share = (reynolds - laminarLimit) / (turbulentLimit - laminarLimit);
  return (
    (1 - share) * laminarNusselt(laminarLimit, prandtl, diameters) +
    share * turbulentNusselt(turbulentLimit, prandtl, diameters)
  );
}

function laminarNusselt(reynolds: number, prandtl: number, diameters: number): number {
  const graetz = (reynolds * prandtl) / diameters;
  const thermal = 1.615 * Math.cbrt(graetz) - 0.7;
  const both = power(2 / (1 + 22 * prandtl), 1 / 6) * Math.sqrt(graetz);
  return Math.cbrt(cube(3.66) + cube(0.7) + cube(thermal) + cube(both));
}

function turbulentNusselt(reynolds: number, prandtl: number, diameters: number): number {
  const darcy = 1 / (0.79 * Math.log(reynolds) - 1.64) ** 2;
  return gnielinski(reynolds, prandtl, darcy) * (1 + power(diameters, -2 / 3));
}

/** Of developed turbulent flow, at a Darcy friction factor. */
export function gnielinski(reynolds: number, prandtl: number, darcy: number): number {
  const eighth = darcy / 8;
  return (eighth * (reynolds - 1000) * prandtl) / (1 + 12.7 * Math.sqrt(eighth) * (power(prandtl, 2 / 3) - 1));
}
