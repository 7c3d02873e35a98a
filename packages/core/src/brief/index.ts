export type { BriefOrigin, BriefPath } from '../input/index.js';
export { canonicalBrief, canonicalHost, canonicalJoint, canonicalJson, textsByHash } from './canonical.js';
export { briefOfChoice, cautionsOfChoices, choiceText, findChoice, valueText } from './choices.js';
export { estimateEffort } from './effort.js';
export { type BriefDifference, type BriefMark, differencesOf, markOf } from './fingerprint.js';
export { type BriefText, briefSizeLimit, readBriefText } from './read.js';
export { readBrief, resolveBrief } from './resolve.js';
export { objectiveCosts, objectiveSizes } from './resolve-search.js';
export type {
  BriefChoice,
  ChannelGroup,
  ChannelObjective,
  ChannelRow,
  ChannelWish,
  ChoiceValues,
  DeliveryWish,
  FamilyName,
  ReferenceChannel,
  ResolvedBrief,
  ScatterWish,
  SearchWish,
  StrengthWish,
  UsedMaterial,
} from './resolved.js';
export { roomWish } from './room-wish.js';
export { briefSchema } from './schema.js';
export { sha256Hex } from './sha256.js';
export { starterBrief } from './starter.js';
