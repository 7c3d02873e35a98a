import { type Circle, type CurveNodes, largestInscribedCircle } from '../outline/index.js';
import { conductanceAroundFibre } from './around-fibre.js';
import { type Conductance, createConductance } from './conductance.js';
import { type Cooling, coolDuct } from './cooling.js';
import type { Delivery } from './delivery.js';
import type { Duct } from './duct-flow.js';
import { type EdgeLimit, type Healing, type HealingTask, healDamage } from './healing.js';
import { type HealingWindow, healingWindow, largestDamage, type NoWindow } from './window.js';

/** What one channel delivers. Plain data; times and pressures that have no bound are Infinity. */
export interface DeliveryReport {
  readonly flow: Conductance;
  readonly cooling: Cooling;
  readonly sensor: SensorFit;
  /** One per agent, in the order of the delivery. */
  readonly healing: readonly AgentReport[];
}

/** The largest round sensor that a channel takes, and the flow left beside the one that is wished. */
export interface SensorFit {
  /** Largest circle in the outline, mm. */
  readonly largest: Circle;
  /** Whether the sensor asked for fits; `true` where none is asked for. */
  readonly fits: boolean;
  /** Of the channel with the sensor, flow beside it at the centre of the largest circle over flow without; 1 without sensor, 0 where it does not fit. */
  readonly flowShare: number;
}

/** What one healing agent does in a channel, at the smallest and the largest damage. */
export interface AgentReport {
  readonly agent: string;
  /** Where its values come from, if that needs saying. */
  readonly caution?: string;
  readonly smallestDamage: Healing;
  readonly largestDamage: Healing;
  /** Damages of the range that are healed. */
  readonly window: HealingWindow | NoWindow;
  /** The same without a range: how far the agent goes. */
  readonly reach: HealingWindow | NoWindow;
}

/**
 * Flow, cooling, sensor and healing of one channel.
 *
 * @param outline a simple outline of 256 nodes or more, so that its largest circle is exact to 0.01 %
 * @param delivery as `completeDelivery` gives it
 * @param edge what the channel's edge bears; left out, any pressure
 * @param supplied of several such channels how they are supplied. Parallel: all at once, so that a damage is filled and heat carried by all together; series: the
 * coolant goes through one after the other, forth and back, and the agent comes through one
 */
export function deliver(
  outline: CurveNodes,
  delivery: Delivery,
  edge?: EdgeLimit,
  supplied?: 'parallel' | 'series',
  channels = 2,
): DeliveryReport {
  const each = { ...createConductance(outline.count)(outline) };
  const flow = together(each, supplied === 'parallel' ? channels : 1);
  const duct: Duct = {
    area: flow.area,
    perimeter: flow.perimeter,
    conductance: flow.conductance,
    length: delivery.length,
  };
  const { areaFrom, areaTo, leastShare, ...damage } = delivery.damage;
  return {
    flow,
    cooling: coolDuct(supplied === 'series' ? { ...duct, length: channels * duct.length } : duct, delivery.cooling),
    sensor: fitSensor(outline, delivery.sensor.diameter, each),
    healing: delivery.agents.map((agent) => {
      const taskOf = (area: number): HealingTask => ({
        duct,
        supply: delivery.supply,
        agent,
        damage: { ...damage, area },
        leastShare,
        ...(edge === undefined ? {} : { edge }),
      });
      return {
        agent: agent.name,
        ...(agent.caution === undefined ? {} : { caution: agent.caution }),
        smallestDamage: healDamage(taskOf(areaFrom)),
        largestDamage: healDamage(taskOf(areaTo)),
        window: healingWindow(taskOf(areaFrom), areaFrom, areaTo),
        reach: largestDamage(taskOf(areaFrom)),
      };
    }),
  };
}

/** Like channels side by side: hydraulic diameter and Poiseuille number are those of each. */
function together(flow: Conductance, channels: number): Conductance {
  const { area, perimeter, conductance } = flow;
  return {
    ...flow,
    area: channels * area,
    perimeter: channels * perimeter,
    conductance: channels * conductance,
  };
}

function fitSensor(outline: CurveNodes, diameter: number, flow: Conductance): SensorFit {
  const largest = largestInscribedCircle(outline);
  if (!(diameter > 0)) return { largest, fits: true, flowShare: 1 };
  if (!(diameter < 2 * largest.radius)) return { largest, fits: false, flowShare: 0 };
  const beside = conductanceAroundFibre(outline, { x: largest.x, y: largest.y, radius: diameter / 2 });
  return { largest, fits: true, flowShare: beside.conductance / flow.conductance };
}
