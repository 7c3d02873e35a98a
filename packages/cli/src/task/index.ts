export type { DesignDocument, FrontDocument, PickDocument, ResultDocument, SearchDocument } from './documents.js';
export { createEvaluator } from './evaluator.js';
export { referenceCurve } from './reference.js';
export { type CheckDocument, runCheck } from './run-check.js';
export { type DeliveredChannel, type DeliveryDocument, runDelivery } from './run-delivery.js';
export { runFront } from './run-front.js';
export type { RunOptions } from './session.js';
