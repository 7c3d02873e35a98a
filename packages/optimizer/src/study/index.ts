export type { Agreement } from './agreement.js';
export {
  type DesignDocument,
  type FrontDocument,
  isVerified,
  type PickDocument,
  type RepeatsDocument,
  type ResultDocument,
  type SearchDocument,
  type VerifiedDesign,
} from './documents.js';
export { type JudgeChannel, prepareEvaluator } from './evaluator.js';
export { type MeshedEdge, type MeshHost, type MeshRequest, meshEdge } from './mesh-edge.js';
export { costOf, sizeOf, type TradedFigures } from './objective.js';
export { referenceCurve } from './reference.js';
export { type CheckDocument, type CheckedStrength, runCheck } from './run-check.js';
export { type DeliveredChannel, type DeliveryDocument, runDelivery } from './run-delivery.js';
export { runFront } from './run-front.js';
export { runPick } from './run-pick.js';
export { runRepeats } from './run-repeats.js';
export {
  runScatterFront,
  runScatterStudy,
  type ScatterDesignDocument,
  type ScatterFrontDocument,
  type ScatterStudyDocument,
} from './run-scatter.js';
export type { RunOptions } from './session.js';
export { verifyFront } from './verify-front.js';
export { type Meshing, openThread, type Scoring, scoringHere, type Workplace } from './workplace.js';
