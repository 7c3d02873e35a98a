export { plateCheck, solvePlate } from './check/solve.js';
export { plateTriangles } from './check/triangles.js';
export { plateHost } from './host.js';
export type { PlateHost } from './plate.js';
export { reducePlate } from './reduce.js';
export { plateBrief } from './section.js';
