export { contourBorder, teeFillerBorder } from './border.js';
export { solveTee } from './check/solve.js';
export { teeTriangles } from './check/triangles.js';
export { controlContour } from './contour.js';
export { teeHost } from './host.js';
export { teeFamilies } from './inset.js';
export { proveTee } from './prove.js';
export { reduceTee } from './reduce.js';
export type { TeeJoint, TeePocket } from './tee.js';
