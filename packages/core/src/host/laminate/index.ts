export { laminateCheck } from './check/check.js';
export { crackRelease, crackSites, pliesBeside } from './check/crack.js';
export {
  divided,
  extentOf,
  finerAtMouth,
  largestInPocket,
  type MeshedCrack,
  type Pocketed,
  type PocketedColumns,
  pocketedColumns,
  sizedChannels,
} from './check/pocketed.js';
export { addPocketed, nearestIndex, type PocketedEnd } from './check/pocketed-mesh.js';
export {
  type ControlContour,
  contourBorder,
  controlContour,
  degreeFor,
  halfRoom,
  higherAtPlaces,
  innerGrid,
  usualAspect,
} from './contour.js';
export { pocketDoubts } from './doubts.js';
export { laminateHost } from './host.js';
export { type LaminateJoint, type Lens, type Pocket, plyBorders, type Slot } from './laminate.js';
export { type LaminateFineness, type LaminateMesh, type LaminatePart, meshLaminate } from './laminate-mesh.js';
export { oneInLens } from './one-channel.js';
export { kinkStrength } from './places.js';
export { type PocketForm, pocketForm, type Side } from './pocket.js';
export { type PocketFields, pocketUnion, resolvePocket } from './pocket-section.js';
export { limitProbes, type PlacedPocket } from './probes.js';
export { addPocketRows } from './recovery.js';
export { laminateBrief } from './section.js';
