export { createDescender } from './descent.js';
export {
  type ChannelEvaluator,
  createChannelEvaluator,
  type DescentGoal,
  type DescentRequest,
  type DescentResult,
  type ScoredOutline,
} from './evaluator.js';
export { namedParameters } from './family-space.js';
export { findFront } from './find-front.js';
export { pickLargest } from './pick-largest.js';
export type { FamilyStart, RefinedOutline, RefineRequest, RefineResult, RefineStart, SolvedDesign } from './refine.js';
export type {
  ChannelFront,
  ChannelPick,
  FoundChannel,
  NearestChannel,
  PickedChannel,
  SearchOptions,
  SearchStop,
} from './result.js';
