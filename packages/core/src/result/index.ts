export type { CheckDocument } from './check.js';
export type { CrackGrowth } from './crack.js';
export type { AgentRepair, DeliveredChannel, DeliveryDocument, RepairReport } from './delivery.js';
export { type ChannelDesign, type DesignDocument, isVerified, type VerifiedDesign } from './design.js';
export type { Agreement, EdgeExtremes, MeshedEdge, PeakDifference } from './edge.js';
export type { ComparedChoice, FrontDocument, LoadByItself, RepeatsDocument } from './front.js';
export { formatVersion } from './header.js';
export type { MadeDocument, PickDocument } from './pick.js';
export { readResult, resultKindOf } from './read.js';
export type { ScatterDesignDocument, ScatterFrontDocument, ScatterStudyDocument } from './scatter.js';
export { type ResultKind, type ResultOf, resultKinds, resultSchema } from './schema.js';
export type { SearchDocument, SearchRun } from './search.js';
export type {
  CaseReport,
  CheckedStrength,
  FailureStart,
  PlaceFactor,
  StrengthReport,
  StrengthSummary,
} from './strength.js';
export type { SweepLine } from './sweep-line.js';
