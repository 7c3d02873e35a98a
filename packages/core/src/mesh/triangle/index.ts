export { addRing, addRings, ringLoop, ringLoops } from './channel-ring.js';
export { type ChannelSizes, channelSize, channelSizes, divide, type SizeOptions } from './channel-size.js';
export { type EnergyRelease, energyRelease, type GrowingCut, growingCut } from './crack-closure.js';
export { addTraction, assembleCubic, type PointStress, stressOf, turnedPlace } from './cubic-assemble.js';
export { addBlock, between, type PlaceOf, turn } from './cubic-block.js';
export {
  type CubicMesh,
  type CubicMeshBuilder,
  createCubicMeshBuilder,
  normalAngle,
  type Place,
  type Zone,
} from './cubic-mesh.js';
export { quadrature, quadratureShapes } from './cubic-triangle.js';
export { type EdgeCurve, edgeCurve } from './edge-curve.js';
export { type EdgeHoop, type EdgePeak, edgeHoops, edgePeak, hoopAt } from './edge-hoop.js';
export { madeFiner } from './made-finer.js';
export { createLocator, type LocalStress, localStress, type MeshPlace, nodalStress } from './section-field.js';
export { sizeBeside } from './size-beside.js';
export type { Solution } from './solution.js';
export { encroachedSegments, type Loop, triangulate } from './triangulate.js';
