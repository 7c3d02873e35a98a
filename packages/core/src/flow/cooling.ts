import type { Quantities } from '../quantity.js';
import type { Duct } from './fill-time.js';
import { flowRegime, laminarFlowRate, type Regime } from './regime.js';
import { kilogramPerCubicMetre } from './units.js';

/** A liquid that is pumped through the channel for the heat it carries, in the units of data sheets. */
export interface Coolant {
  readonly name: string;
  /** mPa s */
  readonly viscosity: number;
  /** kg/m3 */
  readonly density: number;
  /** J/(kg K) */
  readonly heatCapacity: number;
}

export const coolantQuantities: Quantities<Coolant> = {
  viscosity: { unit: 'mPa s', above: 0, atMost: 1e7, sentence: 'Viscosity of the coolant.' },
  density: { unit: 'kg/m3', above: 0, atMost: 30_000, sentence: 'Density of the coolant.' },
  heatCapacity: { unit: 'J/(kg K)', above: 0, atMost: 20_000, sentence: 'Heat capacity of the coolant.' },
};

/** At 20 degrees Celsius; rounded values of common tables, from memory. */
export const water: Coolant = { name: 'water at 20 C', viscosity: 1, density: 998, heatCapacity: 4180 };

export interface Cooling {
  /** mm3/s */
  readonly flowRate: number;
  /** Mean velocity, mm/s. */
  readonly velocity: number;
  readonly regime: Regime;
  /**
   * Run-in length until the velocity profile is developed, mm. Within it the flow is slower than the figures of fully
   * developed flow say.
   */
  readonly runIn: number;
  /** Heat carried per kelvin that the coolant warms up, W/K: `flow rate * density * heat capacity`. */
  readonly heatCapacityRate: number;
  /** mm */
  readonly wettedPerimeter: number;
  /** mm2 */
  readonly wettedArea: number;
}

/**
 * Laminar, fully developed flow of a coolant through the whole length of a channel.
 *
 * @param pressureDrop from end to end, MPa
 */
export function cool(duct: Duct, coolant: Coolant, pressureDrop: number): Cooling {
  const { viscosity, density, heatCapacity } = coolant;
  const gradient = pressureDrop / duct.length;
  const flowRate = laminarFlowRate(duct.flowFactor, gradient, viscosity);
  const regime = flowRegime(duct, gradient, viscosity, density);
  return {
    flowRate,
    velocity: flowRate / duct.area,
    regime,
    runIn: runInLength((4 * duct.area) / duct.perimeter, regime.reynolds),
    // t/mm3 * mm3/s = t/s = 1000 kg/s
    heatCapacityRate: flowRate * density * kilogramPerCubicMetre * 1000 * heatCapacity,
    wettedPerimeter: duct.perimeter,
    wettedArea: duct.perimeter * duct.length,
  };
}

/** Round tubes: `L / D = 0.6 / (1 + 0.035 Re) + 0.056 Re` (Chen 1973, in Shah & London 1978; from memory). */
function runInLength(hydraulicDiameter: number, reynolds: number): number {
  return hydraulicDiameter * (0.6 / (1 + 0.035 * reynolds) + 0.056 * reynolds);
}
