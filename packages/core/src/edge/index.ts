export { type AxialAnswer, addField } from './axial.js';
export {
  type BasisTable,
  contourRecurrence,
  createBasisTable,
  createFunctions,
  fillBasisTable,
  functionAt,
  halfSize,
  isReal,
  linearCoefficient,
  polynomialsOf,
  powerRecurrence,
  type RegularBasis,
  writeFunctions,
} from './basis.js';
export { type EdgeSlopes, type ExactSlopes, exactSlopes } from './edge-slopes.js';
export { createEdgeSolver } from './edge-solver.js';
export {
  createEdgesSolver,
  type EdgeLoad,
  type EdgeSolving,
  type EdgesSolution,
  type EdgesSolver,
} from './edges-solver.js';
export { type EdgeFold, holdsClass, imageSign, isPair, solvedNodes } from './fold.js';
export { createGroupSolver, type EdgeGroup } from './group-solver.js';
export { createHigherMoments, type HigherMoments } from './higher-moments.js';
export { createHoopExtremes, type HoopExtremes, type HoopRule, hoopRule } from './hoop.js';
export {
  type HostResponse,
  responseBlocks,
  type SplitResponse,
  type WholeResponse,
  writeAnswer,
} from './host-response.js';
export type { InnerPoint } from './inner-point.js';
export type { LocalEdge } from './local-nodes.js';
export { type FramedFields, framedCount, framedOrder, plainFrame, toFrame, weightsFromFrame } from './moment-frame.js';
export { type EdgeFields, type FieldClass, writeEdgeFields } from './regular-field.js';
export {
  type AlongEdge,
  createSummitFinder,
  interpolated,
  type SummitFinder,
  seenAfter,
  seenBefore,
} from './summit.js';
