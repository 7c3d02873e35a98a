import type { Delivery } from '../../flow/index.js';
import { doubtsAbout, tellDoubts } from '../../input/index.js';

// Ranges: common practice, no source.

/** What is hardly meant in what the channel has to carry. Built-in liquids are not looked at. */
export function implausibleDelivery({ length, supply, agents, damage, cooling, sensor }: Delivery): string[] {
  const { coolant } = cooling;
  const names = agents.map(({ name }) => name);
  const twice = new Set(names.filter((name, i) => names.indexOf(name) < i));
  const said = tellDoubts([
    ...doubtsAbout('delivery', 'length', length, 'mm', [1, 20_000]),
    ...(supply.pressure > 0
      ? doubtsAbout('delivery.supply', 'pressure', supply.pressure, pressureUnits, [0.0005, 6])
      : []),
    ...agents.flatMap(({ viscosity, gelTime, density, surfaceTension, largestGap, ...agent }, i) => [
      ...(['tensileStrength', 'shearStrength', 'bondTensileStrength', 'bondShearStrength'] as const).flatMap((key) =>
        agent[key] === undefined
          ? []
          : doubtsAbout(`delivery.agents[${i}]`, key, agent[key], ['MPa', 'GPa', 'kPa'], [0.05, 300]),
      ),
      ...doubtsAbout(`delivery.agents[${i}]`, 'gelTime', gelTime, 's', [2, 1e6]),
      ...doubtsAbout(`delivery.agents[${i}]`, 'viscosity', viscosity, 'mPa s', [0.2, 1e6]),
      ...doubtsAbout(`delivery.agents[${i}]`, 'density', density, 'kg/m3', [300, 5000]),
      ...(surfaceTension > 0
        ? doubtsAbout(`delivery.agents[${i}]`, 'surfaceTension', surfaceTension, 'mN/m', [5, 600])
        : []),
      ...doubtsAbout(`delivery.agents[${i}]`, 'largestGap', largestGap, 'mm', [0.005, 200]),
    ]),
    ...doubtsAbout('delivery.damage', 'opening', damage.opening, 'mm', [0.001, 5]),
    ...doubtsAbout('delivery.cooling', 'pressureDrop', cooling.pressureDrop, pressureUnits, [1e-6, 20]),
    ...doubtsAbout('delivery.cooling.coolant', 'viscosity', coolant.viscosity, 'mPa s', [0.1, 1e4]),
    ...doubtsAbout('delivery.cooling.coolant', 'density', coolant.density, 'kg/m3', [300, 5000]),
    ...doubtsAbout('delivery.cooling.coolant', 'heatCapacity', coolant.heatCapacity, 'J/(kg K)', [500, 10_000]),
    ...(sensor.diameter > 0 ? doubtsAbout('delivery.sensor', 'diameter', sensor.diameter, 'mm', [0.005, 20]) : []),
  ]);
  return [...said, ...[...twice].map((name) => `delivery.agents: ${name} stands there twice`)];
}

const pressureUnits = ['MPa', 'bar', 'kPa', 'Pa'] as const;
