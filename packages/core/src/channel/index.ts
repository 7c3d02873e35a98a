export { createChannelReporter, type EvaluatedChannel } from './reporter.js';
export {
  type ChannelScorer,
  createChannelScorer,
  profileGeometry,
  scoreAt,
  scoreSize,
} from './scorer.js';
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
