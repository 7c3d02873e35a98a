import { elapsed, flowingTime } from './ageing.js';
import type { HealingAgent } from './agents.js';
import { type Duct, ductFlow } from './duct-flow.js';
import {
  channelSuction,
  type Damage,
  damageSuction,
  fillTime,
  mostFlow,
  type Supply,
  volumeAtHand,
} from './fill-time.js';
import { flowRegime, type Regime } from './regime.js';
import { risingRoot } from './rising-root.js';
import { liquidOf } from './units.js';

/**
 * What the edge of the channel bears: hoop tension per internal pressure, and the hoop tension that pressure may add (what
 * the loads present while pumping leave of the allowed one).
 */
export interface EdgeLimit {
  /** MPa of peak hoop tension per MPa of internal pressure. */
  readonly stressPerPressure: number;
  /** MPa */
  readonly allowedStress: number;
}

/** One damage to be healed by one agent. */
export interface HealingTask {
  readonly duct: Duct;
  readonly supply: Supply;
  readonly agent: HealingAgent;
  readonly damage: Damage;
  /** Share of the damage's volume that cured agent must take up, above 0 and at most 1. */
  readonly leastShare: number;
  /** Left out: the edge bears any pressure. */
  readonly edge?: EdgeLimit;
}

/**
 * Why a damage is not healed.
 *
 * - 'entry': supply pressure does not overcome the meniscus of an agent that does not wet, or there is no pressure at all
 * - 'trapped air': compressed air stops the front too early; vent the channel or raise the pressure
 * - 'shrinkage': a damage full of liquid holds too little once cured
 * - 'gap': the damage is open wider than the agent fills
 * - 'volume': the reservoir is too small
 * - 'gel': the agent gels first
 * - 'pressure': supply pressure had to be cut to what the edge bears, and one of 'entry', 'trapped air', 'gel' came of what is left
 */
export type HealingObstacle = 'entry' | 'trapped air' | 'shrinkage' | 'gap' | 'volume' | 'gel' | 'pressure';

/** What an agent does to one damage: how long it takes, in s, and what stands in its way. */
export interface Healing {
  readonly agent: string;
  readonly healed: boolean;
  readonly reasons: readonly HealingObstacle[];
  /** Pressure used: of the supply, or the most that the edge bears. MPa */
  readonly pressure: number;
  /** Infinity without limit. MPa */
  readonly pressureLimit: number;
  /** From the inlet until the front reaches the damage, s; Infinity: never. */
  readonly primingTime: number;
  /** Until the damage holds enough to have its least share filled after cure, s; Infinity: never. Counted like `primingTime`. */
  readonly fillTime: number;
  readonly gelTime: number;
  /** Share of the damage's volume that holds cured agent in the end. */
  readonly share: number;
  /** Liquid in channel and damage, mm3. */
  readonly volumeNeeded: number;
  /** Infinity without limit. */
  readonly volumeAvailable: number;
  /** Under the supply's pressure in the primed channel before the damage resists, and what the supply gives at most, mm3/s. */
  readonly flowRate: number;
  /** At this flow rate. */
  readonly regime: Regime;
  /** What sets it: the supply's pressure, or its most flow. */
  readonly flowLimitedBy: 'pressure' | 'flow';
}

/**
 * Whether an agent heals a damage, and if not, why.
 *
 * Assumptions, all of which a test has to confirm: the agent is mixed when it enters; it flows up to its gel time, with the
 * viscosity law of `HealingAgent`, and not afterwards (times beyond gel continue the law, to show by how much it misses); an
 * agent that expands does so after it has flowed; the damage keeps its opening under pressure and does not grow. Values are
 * taken as checked (`completeDelivery` does).
 */
export function healDamage(task: HealingTask): Healing {
  const { duct, damage, agent, leastShare, edge } = task;
  const pressureLimit = edge === undefined ? Number.POSITIVE_INFINITY : limitOf(edge);
  const supply = withinLimit(task);
  const volumeAvailable = volumeAtHand(supply);
  const channelVolume = duct.area * duct.length;
  const damageVolume = damage.area * damage.opening;
  const needed = (leastShare * damageVolume) / (1 + agent.volumeChange);
  const timeTo = (inDamage: number) => fillTime(duct, damage, supply, agent, channelVolume + inDamage);
  const fluidTime = timeTo(Math.min(needed, damageVolume));

  const reasons: HealingObstacle[] = [];
  if (!enters(duct, damage, supply, agent)) reasons.push('entry');
  else if (!(fluidTime < Number.POSITIVE_INFINITY)) reasons.push('trapped air');
  else if (!(fluidTime <= flowingTime(agent))) reasons.push('gel');
  if (reasons.length > 0 && supply.pressure < task.supply.pressure) reasons.push('pressure');
  if (!shrinksLittle(agent, leastShare)) reasons.push('shrinkage');
  if (!fillsGap(agent, damage)) reasons.push('gap');
  if (!(channelVolume + needed <= volumeAvailable)) reasons.push('volume');

  const most = Math.min(damageVolume, volumeAvailable - channelVolume);
  const delivered = risingRoot((volume) => timeTo(volume) - flowingTime(agent), 0, most);
  const liquid = liquidOf(agent);
  const pushed = ductFlow(duct, liquid, supply.pressure);
  const flowRate = Math.min(pushed, mostFlow(supply));
  return {
    agent: agent.name,
    healed: reasons.length === 0,
    reasons,
    pressure: supply.pressure,
    pressureLimit,
    primingTime: elapsed(timeTo(0), agent),
    fillTime: needed <= damageVolume ? elapsed(fluidTime, agent) : Number.POSITIVE_INFINITY,
    gelTime: agent.gelTime,
    share: Math.min(1, (delivered * (1 + agent.volumeChange)) / damageVolume),
    volumeNeeded: channelVolume + needed,
    volumeAvailable,
    flowRate,
    regime: flowRegime(duct, liquid, flowRate),
    flowLimitedBy: pushed > mostFlow(supply) ? 'flow' : 'pressure',
  };
}

/** The supply of a task, its pressure cut to what the edge bears. */
export function withinLimit({ supply, edge }: HealingTask): Supply {
  if (edge === undefined) return supply;
  return { ...supply, pressure: Math.min(supply.pressure, limitOf(edge)) };
}

/** An edge that pressure does not put in tension bears any. */
function limitOf({ stressPerPressure, allowedStress }: EdgeLimit): number {
  return stressPerPressure > 0 ? allowedStress / stressPerPressure : Number.POSITIVE_INFINITY;
}

/** Whether the meniscus moves in channel and damage. */
export function enters(duct: Duct, damage: Damage, supply: Supply, agent: HealingAgent): boolean {
  return supply.pressure + Math.min(channelSuction(duct, agent), damageSuction(damage, agent)) > 0;
}

export function shrinksLittle(agent: HealingAgent, leastShare: number): boolean {
  return 1 + agent.volumeChange >= leastShare;
}

export function fillsGap(agent: HealingAgent, damage: Damage): boolean {
  return damage.opening <= agent.largestGap;
}
