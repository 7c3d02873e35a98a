export { findFront } from './find-front.js';
export type {
  ChannelFront,
  ChannelPick,
  FoundChannel,
  NearestChannel,
  ScoreChannels,
  SearchOptions,
  SearchRun,
} from './result.js';
