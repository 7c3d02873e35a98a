export {
  type CaseOutcome,
  type CaseRequest,
  type CaseRunner,
  caseRunner,
  failedOutcome,
  identifyCase,
  openCase,
  performCase,
  type RunKind,
  type SweepCase,
} from './case.js';
export { channelField } from './channel-field.js';
export { crackGrowthOf } from './crack-growth.js';
export { type JudgeChannel, prepareEvaluator } from './evaluator.js';
export { type MeshHost, type MeshRequest, meshEdge } from './mesh-edge.js';
export { meshNodes } from './mesh-nodes.js';
export { costOf, meets, sizeOf, type TradedFigures } from './objective.js';
export { referenceCurve, referenceDesign } from './reference.js';
export { refuseChoices } from './refuse-choices.js';
export { createOutlineReports, type ReportedOutline, type ReportOutlines } from './report-outlines.js';
export { runCheck } from './run-check.js';
export { runDelivery } from './run-delivery.js';
export { runEachLoad } from './run-each-load.js';
export { runFront } from './run-front.js';
export { judgeMade, runMadePick } from './run-made-pick.js';
export { runPick } from './run-pick.js';
export { runPickRepeats, runRepeats } from './run-repeats.js';
export { runScatterFront, runScatterStudy } from './run-scatter.js';
export type { RunOptions } from './session.js';
export { tolerated } from './trust.js';
export { type VerifyOptions, verifyFront } from './verify-front.js';
export { type Meshing, openThread, type Scoring, type Workplace } from './workplace.js';
