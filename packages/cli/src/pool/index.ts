export { createMeshing } from './meshing.js';
export { createScoring } from './scoring.js';
export { openThreads } from './threads.js';
