export {
  type ChannelDesign,
  createChannelReporter,
  type EdgeExtremes,
  type EvaluatedChannel,
} from './reporter.js';
export {
  type ChannelScorer,
  createChannelScorer,
  profileGeometry,
  scoreAt,
  scoreSize,
} from './scorer.js';
export type {
  CaseReport,
  FailureStart,
  PlaceFactor,
  StrengthReport,
  StrengthSummary,
} from './strength-report.js';
export { supplyLimit, withSupply } from './supply-limit.js';
export {
  areaAgainstPeak,
  type ChannelTask,
  channelBorder,
  channelRoom,
  createTask,
  limitsStrength,
  reduceJoint,
  type TaskBrief,
  taskFamilies,
  tradesStrength,
} from './task.js';
