export { sectionBrief } from './brief-section.js';
export { sectionCheck } from './check/solve.js';
export { sectionHost } from './host.js';
export type { CurveForce, CurveSupport, MeshText, SectionJoint, SurfaceMaterial } from './joint.js';
