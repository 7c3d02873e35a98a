export { findFront } from './find-front.js';
export { pickLargest } from './pick-largest.js';
export type {
  ChannelFront,
  ChannelPick,
  FoundChannel,
  NearestChannel,
  ScoreChannels,
  SearchOptions,
  SearchRun,
} from './result.js';
