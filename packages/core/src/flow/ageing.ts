import type { HealingAgent } from './agents.js';

// All of an agent has one age, so that flow under `viscosity * growth^(t / gelTime)` is the flow under constant viscosity on a clock that
// slows down: the fluid's own time.

/** How long the agent would flow up to gel if it kept its fresh viscosity, s. */
export function flowingTime({ gelTime, viscosityGrowth }: HealingAgent): number {
  const rate = Math.log(viscosityGrowth);
  return rate > 0 ? (-gelTime * Math.expm1(-rate)) / rate : gelTime;
}

/** Time on the wall's clock for a time at fresh viscosity; Infinity if growing viscosity never lets it pass. */
export function elapsed(fluidTime: number, { gelTime, viscosityGrowth }: HealingAgent): number {
  const rate = Math.log(viscosityGrowth) / gelTime;
  if (!(rate > 0)) return fluidTime;
  return rate * fluidTime < 1 ? -Math.log1p(-rate * fluidTime) / rate : Number.POSITIVE_INFINITY;
}

/** Viscosity over that of the fresh agent, at a time at fresh viscosity. */
export function growthAt(fluidTime: number, { gelTime, viscosityGrowth }: HealingAgent): number {
  const past = (Math.log(viscosityGrowth) / gelTime) * fluidTime;
  return past < 1 ? 1 / (1 - past) : Number.POSITIVE_INFINITY;
}
