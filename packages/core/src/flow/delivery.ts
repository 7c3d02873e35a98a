import { InputError, type InputProblem } from '../errors.js';
import { problemsOf, type Quantities } from '../quantity.js';
import { agentQuantities, type GenericAgent, genericAgents, type HealingAgent } from './agents.js';
import { type Coolant, coolantQuantities, genericWater } from './cooling.js';
import type { Damage, Supply } from './fill-time.js';

/** What a channel has to deliver. */
export interface Delivery {
  /** Of the channel from the inlet to the damage, and of its cooled part, mm. */
  readonly length: number;
  readonly supply: Supply;
  readonly agents: readonly HealingAgent[];
  readonly damage: DamageRange;
  readonly cooling: CoolantDrive;
  readonly sensor: SensorWish;
}

/** Delaminations to heal: one shape and opening, a range of sizes. */
export interface DamageRange extends Omit<Damage, 'area'> {
  /** mm2 */
  readonly areaFrom: number;
  readonly areaTo: number;
  /** Share of a damage's volume that cured agent must take up, above 0 and at most 1. */
  readonly leastShare: number;
}

/** What drives a coolant through the channel. */
export interface CoolantDrive {
  readonly coolant: Coolant;
  /** From the supply to the end of the channel, MPa. */
  readonly pressureDrop: number;
  /** What the pump gives at most, mm3/s; left out: as much as the pressure drives. */
  readonly flowLimit?: number;
}

/** A round sensor or fibre along the channel. */
export interface SensorWish {
  /** Of a round sensor in the channel, mm; 0: none. */
  readonly diameter: number;
}

export const deliveryQuantities: Quantities<Delivery> = {
  length: { unit: 'mm', above: 0, atMost: 1e6, sentence: 'Length of the channel from the inlet to the damage.' },
};

export const supplyQuantities: Quantities<Supply> = {
  pressure: {
    unit: 'MPa',
    atLeast: 0,
    atMost: 1000,
    sentence: 'Gauge pressure of the supply; 0 leaves capillary pressure alone.',
  },
  reservoir: { unit: 'mm3', above: 0, atMost: 1e9, sentence: 'Agent at hand; left out, as much as it takes.' },
  flowLimit: {
    unit: 'mm3/s',
    above: 0,
    atMost: 1e9,
    sentence: 'Most flow that the supply gives; left out, as much as its pressure drives.',
  },
};

export const damageQuantities: Quantities<DamageRange> = {
  aspect: {
    unit: '1',
    above: 0,
    atMost: 1e6,
    sentence: 'Of a strip: its reach away from the channel over its length along the channel.',
  },
  opening: { unit: 'mm', above: 0, atMost: 100, sentence: 'Distance of the faces of the damage.' },
  areaFrom: { unit: 'mm2', above: 0, atMost: 1e9, sentence: 'Area of the smallest damage.' },
  areaTo: { unit: 'mm2', above: 0, atMost: 1e9, sentence: 'Area of the largest damage.' },
  leastShare: {
    unit: '1',
    above: 0,
    atMost: 1,
    sentence: 'Share of the damage that cured agent must take up to count as healed.',
  },
};

export const coolantDriveQuantities: Quantities<CoolantDrive> = {
  pressureDrop: {
    unit: 'MPa',
    above: 0,
    atMost: 1000,
    sentence: 'Pressure of the coolant in its reservoir over that at the end of the channel.',
  },
  flowLimit: {
    unit: 'mm3/s',
    above: 0,
    atMost: 1e9,
    sentence: 'Most flow that the pump gives; left out, as much as the pressure drives.',
  },
};

export const sensorQuantities: Quantities<SensorWish> = {
  diameter: {
    unit: 'mm',
    atLeast: 0,
    atMost: 1000,
    sentence: 'Diameter of a round sensor in the channel; 0 for none.',
  },
};

/** Our own choice, to have something to begin with; nothing in it comes from a source. */
export const defaultDelivery: Delivery = {
  length: 200,
  supply: { pressure: 0.1, vented: true },
  agents: Object.values(genericAgents),
  damage: { shape: 'disc', aspect: 1, opening: 0.05, areaFrom: 25, areaTo: 2500, leastShare: 0.8 },
  cooling: { coolant: genericWater, pressureDrop: 0.01 },
  sensor: { diameter: 0 },
};

/** The brief's section `delivery`: everything may be left out; a built-in agent goes by its name. */
export interface DeliverySection {
  readonly length?: number;
  readonly supply?: Partial<Supply>;
  readonly agents?: ReadonlyArray<GenericAgent | HealingAgent>;
  readonly damage?: Partial<DamageRange>;
  readonly cooling?: Partial<CoolantDrive>;
  readonly sensor?: Partial<SensorWish>;
}

/**
 * A delivery from what the brief says of it, with `defaultDelivery` for the rest.
 *
 * @throws InputError with every value that is out of its range, under the path `delivery`
 */
export function completeDelivery(section: DeliverySection): Delivery {
  const problems: InputProblem[] = [];
  const agents = (section.agents ?? Object.keys(genericAgents)).flatMap((agent, i) => {
    const known = typeof agent === 'string' ? genericAgents[agent as GenericAgent] : agent;
    if (known !== undefined) return [known as HealingAgent];
    problems.push({
      path: `delivery.agents[${i}]`,
      expected: `one of ${Object.keys(genericAgents).join(', ')}, or an agent's values`,
      received: String(agent),
      remedy: 'take one of these names or write the values of the data sheet',
    });
    return [];
  });
  const delivery: Delivery = {
    length: section.length ?? defaultDelivery.length,
    supply: { ...defaultDelivery.supply, ...section.supply },
    agents,
    damage: { ...defaultDelivery.damage, ...section.damage },
    cooling: { ...defaultDelivery.cooling, ...section.cooling },
    sensor: { ...defaultDelivery.sensor, ...section.sensor },
  };
  problems.push(...deliveryProblems(delivery));
  if (problems.length > 0) throw new InputError(problems);
  return delivery;
}

function deliveryProblems({ length, supply, agents, damage, cooling, sensor }: Delivery): InputProblem[] {
  const problems = [
    ...problemsOf<Pick<Delivery, 'length'>>({ length }, deliveryQuantities, 'delivery'),
    ...problemsOf(supply, supplyQuantities, 'delivery.supply', ['reservoir', 'flowLimit']),
    ...agents.flatMap((agent, i) =>
      problemsOf<HealingAgent>(agent, agentQuantities, `delivery.agents[${i}]`, [
        'tensileStrength',
        'shearStrength',
        'bondTensileStrength',
        'bondShearStrength',
        'toughnessShare',
        'fatigueSlope',
      ]),
    ),
    ...problemsOf(damage, damageQuantities, 'delivery.damage'),
    ...problemsOf(cooling, coolantDriveQuantities, 'delivery.cooling', ['flowLimit']),
    ...problemsOf(cooling.coolant, coolantQuantities, 'delivery.cooling.coolant', ['conductivity']),
    ...problemsOf(sensor, sensorQuantities, 'delivery.sensor'),
  ];
  if (damage.areaTo < damage.areaFrom)
    problems.push({
      path: 'delivery.damage.areaTo',
      expected: `at least areaFrom, ${damage.areaFrom} mm2`,
      received: String(damage.areaTo),
      remedy: 'exchange the two or change one',
    });
  return problems;
}
