import type { Quantities } from '../quantity.js';
import type { CoolantDrive } from './delivery.js';
import { type Duct, ductFlow, hydraulicDiameter, pressureLoss } from './duct-flow.js';
import { nusselt } from './heat-transfer.js';
import { flowRegime, type Regime } from './regime.js';
import { liquidOf } from './units.js';

/** A liquid that is pumped through the channel for the heat it carries, in the units of data sheets. */
export interface Coolant {
  readonly name: string;
  /** mPa s */
  readonly viscosity: number;
  /** kg/m3 */
  readonly density: number;
  /** J/(kg K) */
  readonly heatCapacity: number;
  /** W/(m K); left out, nothing is said of the heat that passes from the wall. */
  readonly conductivity?: number;
}

export const coolantQuantities: Quantities<Coolant> = {
  viscosity: { unit: 'mPa s', above: 0, atMost: 1e7, sentence: 'Viscosity of the coolant.' },
  density: { unit: 'kg/m3', above: 0, atMost: 30_000, sentence: 'Density of the coolant.' },
  heatCapacity: { unit: 'J/(kg K)', above: 0, atMost: 20_000, sentence: 'Heat capacity of the coolant.' },
  conductivity: {
    unit: 'W/(m K)',
    above: 0,
    atMost: 500,
    sentence: 'Thermal conductivity of the coolant; left out, nothing is said of the heat that passes from the wall.',
  },
};

/** At 20 degrees Celsius; rounded values of common tables, from memory. */
export const genericWater: Coolant = {
  name: 'water at 20 C',
  viscosity: 1,
  density: 998,
  heatCapacity: 4180,
  conductivity: 0.6,
};

/** What a coolant does in the channel. */
export interface Cooling {
  /** mm3/s */
  readonly flowRate: number;
  /** Mean velocity, mm/s. */
  readonly velocity: number;
  readonly regime: Regime;
  /** What sets the flow: the pressure, or the most that the pump gives. */
  readonly limitedBy: 'pressure' | 'flow';
  /** From the supply to the end of the channel, at this flow, MPa. */
  readonly pressureDrop: number;
  /** Run-in length of laminar flow until its velocity profile is developed, mm; what it costs is in the flow. */
  readonly runIn: number;
  /** Heat carried per kelvin that the coolant warms up, W/K: `flow rate * density * heat capacity`. */
  readonly heatCapacityRate: number;
  /** mm */
  readonly wettedPerimeter: number;
  /** mm2 */
  readonly wettedArea: number;
  /** From the wall; left out where the coolant's conductivity is not known. */
  readonly wall?: WallHeat;
}

/** Heat from a wall of one temperature into the coolant. */
export interface WallHeat {
  /** On the hydraulic diameter, averaged over the length. */
  readonly nusselt: number;
  /** W/(m2 K) */
  readonly coefficient: number;
  /** W per kelvin by which the wall is warmer than the coolant that enters. */
  readonly rate: number;
}

/** Flow of a coolant through the whole length of a channel, and the heat it takes up. Laws and ranges: `friction.ts`, `heat-transfer.ts`. */
export function coolDuct(duct: Duct, { coolant, pressureDrop, flowLimit }: CoolantDrive): Cooling {
  const liquid = liquidOf(coolant);
  const pushed = ductFlow(duct, liquid, pressureDrop);
  const limited = flowLimit !== undefined && flowLimit < pushed;
  const flowRate = limited ? flowLimit : pushed;
  const regime = flowRegime(duct, liquid, flowRate);
  // t/mm3 * mm3/s = t/s = 1000 kg/s
  const heatCapacityRate = flowRate * liquid.density * 1000 * coolant.heatCapacity;
  return {
    flowRate,
    velocity: flowRate / duct.area,
    regime,
    limitedBy: limited ? 'flow' : 'pressure',
    pressureDrop: limited ? pressureLoss(duct, liquid, duct.length, flowRate) : pressureDrop,
    runIn: runInLength(hydraulicDiameter(duct), regime.reynolds),
    heatCapacityRate,
    wettedPerimeter: duct.perimeter,
    wettedArea: duct.perimeter * duct.length,
    ...(coolant.conductivity === undefined
      ? {}
      : { wall: wallHeat(duct, coolant, coolant.conductivity, regime.reynolds, heatCapacityRate) }),
  };
}

/** Round tubes: `L / D = 0.6 / (1 + 0.035 Re) + 0.056 Re` (Chen 1973, in Shah & London 1978; from memory). */
function runInLength(diameter: number, reynolds: number): number {
  return diameter * (0.6 / (1 + 0.035 * reynolds) + 0.056 * reynolds);
}

/** A coolant that passes a wall of one temperature comes nearer to it by `1 - exp(-coefficient * area / heat capacity rate)`. */
function wallHeat(
  duct: Duct,
  coolant: Coolant,
  conductivity: number,
  reynolds: number,
  capacityRate: number,
): WallHeat {
  const diameter = hydraulicDiameter(duct);
  // mPa s * J/(kg K) / (W/(m K)), and mPa s = 1e-3 kg/(m s)
  const prandtl = (coolant.viscosity * 1e-3 * coolant.heatCapacity) / conductivity;
  const number = nusselt(reynolds, prandtl, duct.length / diameter);
  const coefficient = (number * conductivity) / (diameter * 1e-3);
  const transferUnits = (coefficient * duct.perimeter * duct.length * 1e-6) / capacityRate;
  return { nusselt: number, coefficient, rate: -capacityRate * Math.expm1(-transferUnits) };
}
