export { caseFactors } from './case-factors.js';
export { type MeshedOptions, type MeshedPeak, type MeshedStress, meshedStress } from './meshed.js';
export {
  type MeshedSection,
  type MeshedSectionOptions,
  meshedSection,
  type SectionLargest,
  type SectionStresses,
} from './meshed-section.js';
export {
  type ActingLoad,
  actingLoads,
  createEdgeMemory,
  createStressModel,
  type EdgeMemory,
  type SolvedEdge,
  type StressDetail,
  type StressModel,
} from './stress-model.js';
