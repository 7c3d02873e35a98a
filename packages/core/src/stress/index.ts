export { caseFactors } from './case-factors.js';
export {
  type ChannelDesign,
  createChannelReporter,
  type EdgeExtremes,
  type EvaluatedChannel,
  type SolvedChannel,
} from './channel-design.js';
export {
  type ChannelJudge,
  type ChannelScorer,
  createChannelScorer,
  profileGeometry,
  scoreAt,
  scoreSize,
} from './channel-scorer.js';
export {
  type ChannelTask,
  channelBorder,
  channelRoom,
  limitsStrength,
  reduceJoint,
  taskFamilies,
  tradesStrength,
} from './channel-task.js';
export { supplyLimit, withSupply } from './edge-limit.js';
export { innerPoint } from './inner-point.js';
export { type MeshedOptions, type MeshedPeak, type MeshedStress, meshedStress } from './meshed.js';
export {
  type MeshedSection,
  type MeshedSectionOptions,
  meshedSection,
  type SectionLargest,
  type SectionStresses,
} from './meshed-section.js';
export {
  type ActingLoad,
  actingLoads,
  createEdgeMemory,
  createStressModel,
  type EdgeMemory,
  type EdgeStress,
  type StressDetail,
  type StressModel,
} from './stress-model.js';
