export { laminateCheck } from './check/check.js';
export {
  extentOf,
  largestInPocket,
  type Pocketed,
  type PocketedColumns,
  pocketedColumns,
  sizedChannels,
} from './check/pocketed.js';
export { addPocketed, nearestIndex, type PocketedEnd } from './check/pocketed-mesh.js';
export { type Combination, combined, eliminateBeyond } from './condense.js';
export {
  type ControlContour,
  contourBorder,
  controlContour,
  degreeFor,
  halfRoom,
  usualAspect,
} from './contour.js';
export { pocketDoubts } from './doubts.js';
export { laminateHost, oneInLens } from './host.js';
export { type LaminateJoint, type Lens, type Pocket, plyBorders, type Slot } from './laminate.js';
export { type LaminateMesh, type LaminatePart, meshLaminate } from './laminate-mesh.js';
export { kinkStrength } from './places.js';
export { type PocketForm, pocketForm, type Side } from './pocket.js';
export { limitProbes, type PlacedPocket } from './probes.js';
export { addPocketRows } from './recovery.js';
export { higherAtPlaces, innerGrid } from './reduce.js';
export { laminateBrief, type PocketFields, pocketUnion, resolvePocket } from './section.js';
