export {
  agentCaution,
  agentQuantities,
  type GenericAgent,
  genericAgents,
  type HealingAgent,
} from './agents.js';
export { conductanceAroundFibre } from './around-fibre.js';
export { type Conductance, type ConductanceSolver, createConductance } from './conductance.js';
export { type Coolant, type Cooling, coolantQuantities, coolDuct, genericWater, type WallHeat } from './cooling.js';
export { type AgentReport, type DeliveryReport, deliver, type SensorFit } from './deliver.js';
export {
  type CoolantDrive,
  completeDelivery,
  coolantDriveQuantities,
  type DamageRange,
  type Delivery,
  type DeliverySection,
  damageQuantities,
  defaultDelivery,
  deliveryQuantities,
  type SensorWish,
  sensorQuantities,
  supplyQuantities,
} from './delivery.js';
export type { Duct } from './duct-flow.js';
export { pressureLoss } from './duct-flow.js';
export { type Damage, fillTime, type Supply } from './fill-time.js';
export { apparentFriction } from './friction.js';
export { type EdgeLimit, type Healing, type HealingObstacle, type HealingTask, healDamage } from './healing.js';
export { gnielinski, nusselt } from './heat-transfer.js';
export type { Regime } from './regime.js';
export { type HealingWindow, healingWindow, largestDamage, type NoWindow } from './window.js';
