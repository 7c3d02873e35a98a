export { type ActingLoad, actingLoads } from './acting-loads.js';
export { caseFactors } from './case-factors.js';
export { channelCurves } from './channel-curves.js';
export { type MeshedOptions, type MeshedPeak, type MeshedStress, meshedHoop, meshedStress } from './meshed.js';
export {
  type FieldCells,
  type FieldGrid,
  type MeshedField,
  type MeshedFieldOptions,
  meshedField,
} from './meshed-field.js';
export { meshedPlaces } from './meshed-places.js';
export { type MeshedCase, type MeshedSection, meshedSection } from './meshed-section.js';
export { copyEdge, distanceToEdges, type SolvedChannel, type SolvedEdge } from './solved-edge.js';
export {
  type CaseSlopes,
  createEdgeMemory,
  createStressModel,
  type EdgeMemory,
  type StressDetail,
  type StressModel,
  type StressOptions,
} from './stress-model.js';
