export { sectionHost } from './host.js';
export type { CurveForce, CurveSupport, MeshText, SectionJoint, SurfaceMaterial } from './joint.js';
