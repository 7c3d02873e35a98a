import { power } from '../power.js';
import { apparentFriction } from './friction.js';

/** A channel as a duct: what `Conductance` says of its outline, and its length. mm, mm2, mm4. */
export interface Duct {
  readonly area: number;
  readonly perimeter: number;
  readonly conductance: number;
  /** From the supply to the damage, mm. */
  readonly length: number;
}

/** A liquid in the units of the joint. */
export interface Liquid {
  /** MPa s */
  readonly viscosity: number;
  /** t/mm3 */
  readonly density: number;
}

/**
 * Velocity heads lost between a reservoir and the end of a duct, besides friction and run-in: the head itself, and 0.5 at an inlet
 * with a sharp edge (Kays & London, Compact Heat Exchangers, 1984; Idelchik, Handbook of Hydraulic Resistance, 1986).
 */
export const inletHeads = 1.5;

/** Pressure that flow takes from a reservoir through the first `length` mm of a duct, MPa. `flowRate` in mm3/s, above 0. */
export function pressureLoss(duct: Duct, { viscosity, density }: Liquid, length: number, flowRate: number): number {
  const velocity = flowRate / duct.area;
  const heads = (inletHeads * density * velocity * velocity) / 2;
  if (!(length > 0)) return heads;
  const diameter = hydraulicDiameter(duct);
  const reynolds = (density * velocity * diameter) / viscosity;
  const developed = (diameter * diameter * duct.area) / (2 * duct.conductance);
  const friction = apparentFriction(reynolds, developed, length / diameter);
  return heads + (2 * friction * viscosity * velocity * length) / (diameter * diameter);
}

export const hydraulicDiameter = ({ area, perimeter }: Pick<Duct, 'area' | 'perimeter'>) => (4 * area) / perimeter;

/** Flow through a whole duct between reservoirs that differ by `pressure` MPa, mm3/s. */
export function ductFlow(duct: Duct, liquid: Liquid, pressure: number): number {
  const laminar = (duct.conductance * pressure) / (liquid.viscosity * duct.length);
  const heads = (inletHeads * liquid.density) / (2 * duct.area ** 2);
  return drivenFlow((flow) => pressureLoss(duct, liquid, duct.length, flow), pressure, laminar, heads);
}

/** Of a flow, relative: a few times what rounding leaves of its loss. */
const precision = 1e-12;

/**
 * The flow whose loss is `pressure`, mm3/s. Loss over flow must not fall with flow, so that a flow that is too large by the
 * loss's ratio `r` is not more than `r` times too large; false position (Illinois) on the logarithms in between.
 *
 * @param laminar flow without heads, an upper limit; may be Infinity
 * @param heads loss of heads alone over the square of the flow, another
 */
export function drivenFlow(
  lossAt: (flowRate: number) => number,
  pressure: number,
  laminar: number,
  heads: number,
): number {
  if (!(pressure > 0)) return 0;
  let high = Math.min(laminar, Math.sqrt(pressure / heads));
  let above = Math.log(lossAt(high) / pressure);
  if (!(above > 0)) return high;
  let low = high * Math.exp(-above);
  let below = Math.log(lossAt(low) / pressure);
  let last = 0;
  while (below < 0 && high > low * (1 + precision)) {
    const flow = high * power(low / high, above / (above - below));
    const off = Math.log(lossAt(flow) / pressure);
    if (!(Math.abs(off) > precision)) return flow;
    // The end that stays put twice is taken for half as far off.
    if (off > 0) {
      high = flow;
      above = off;
      if (last > 0) below /= 2;
    } else {
      low = flow;
      below = off;
      if (last < 0) above /= 2;
    }
    last = off;
  }
  return low;
}
