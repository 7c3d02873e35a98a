export { type MeshedEdge, type MeshHost, type MeshRequest, meshEdge } from './mesh-edge.js';
export { createMeshing, type Meshing } from './meshing.js';
export { createScoring, type Scoring } from './scoring.js';
