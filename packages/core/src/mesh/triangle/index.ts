export { type PointStress, stressOf } from './cubic-assemble.js';
export { type CubicMesh, normalAngle } from './cubic-mesh.js';
export { type Solution, solvePlate, solveTee } from './cubic-solve.js';
export { type EdgeCurve, edgeCurve } from './edge-curve.js';
export { type EdgeHoop, type EdgePeak, edgeHoop, edgePeak, hoopAt } from './edge-hoop.js';
export { plateTriangles } from './plate-triangles.js';
export { type LocalStress, localStress, locate, nodalStress } from './section-field.js';
export { teeTriangles } from './tee-triangles.js';
