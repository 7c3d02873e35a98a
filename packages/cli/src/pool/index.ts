export { createMeshing } from './meshing.js';
export { createScoring } from './scoring.js';
