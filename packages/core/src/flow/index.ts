export {
  agentCaution,
  agentQuantities,
  checkAgent,
  type GenericAgent,
  genericAgents,
  type HealingAgent,
} from './agents.js';
export { type Conductance, type ConductanceSolver, createConductance } from './conductance.js';
export { type Damage, type Duct, fillTime, type Supply } from './fill-time.js';
export { type EdgeLimit, type Healing, type HealingObstacle, type HealingTask, heal } from './healing.js';
export type { Regime } from './regime.js';
export { type HealingWindow, healingWindow, largestDamage, type NoWindow } from './window.js';
