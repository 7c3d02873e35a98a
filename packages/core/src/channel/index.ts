export {
  createEdgeProfiler,
  type EdgeProfile,
  type EdgeProfiler,
  type OutlineProfiler,
  type ProfileSlopes,
  slopesCost,
} from './edge-profile.js';
export { followOutline, pocketHeight } from './follow.js';
export { isTaskLoaded, type LoadedTask, loadTask } from './load-task.js';
export type { ChannelProfile } from './profile.js';
export {
  type ChannelReporter,
  createChannelReporter,
  type EvaluatedChannel,
  type ReporterOptions,
} from './reporter.js';
export { scoreAt, scoreSize } from './score.js';
export { type ChannelScorer, createChannelScorer } from './scorer.js';
export type { StrengthStarts } from './strength-report.js';
export { supplyLimit, withSupply } from './supply-limit.js';
export {
  areaAgainstPeak,
  type ChannelTask,
  channelBorder,
  channelRoom,
  createTask,
  type EdgeCost,
  hasSlopes,
  limitsStrength,
  type OwnFamily,
  pitchTolerance,
  planHeights,
  reduceJoint,
  reduceTeeJoint,
  sideBySide,
  type TaskBrief,
  type TaskChannel,
  type TaskObjective,
  taskFamilies,
  tradesStrength,
  wholeRoom,
} from './task.js';
