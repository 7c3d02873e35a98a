export { createChannelJudge } from './judge.js';
export {
  type ChannelDesign,
  createChannelReporter,
  type EdgeExtremes,
  type EvaluatedChannel,
} from './reporter.js';
export {
  type ChannelJudge,
  type ChannelScorer,
  createChannelScorer,
  profileGeometry,
  scoreAt,
  scoreSize,
} from './scorer.js';
export {
  type CaseReport,
  createStrengthReporter,
  type FailureStart,
  type PlaceFactor,
  type StrengthReport,
  type StrengthReporter,
  type StrengthSummary,
} from './strength-report.js';
export { supplyLimit, withSupply } from './supply-limit.js';
export {
  type ChannelTask,
  channelBorder,
  channelRoom,
  limitsStrength,
  reduceJoint,
  taskFamilies,
  tradesStrength,
} from './task.js';
