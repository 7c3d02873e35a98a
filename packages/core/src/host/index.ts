export { type BriefKind, briefKinds } from './brief-of.js';
export { cracksOf, meshJoint } from './check-of.js';
export {
  type ByClass,
  type Condensed,
  type CondensedHost,
  type ContourNodes,
  contourBasis,
  innerPressure,
  reduceCondensed,
  type ScalarLoad,
  type StillLoad,
} from './condensed/index.js';
export type {
  CrackCheck,
  CrackRelease,
  CrackSite,
  FollowingPocket,
  Host,
  HostBrief,
  HostCheck,
  HostKind,
  HostSize,
  Joint,
  KnownKind,
  MaterialBook,
  MeshedLoads,
  RoomWish,
} from './contract.js';
export { beyondBound, describeSize, type Effort, effortBound, effortOf } from './effort.js';
export {
  createMovingModel,
  type HeightPlan,
  type HeightTable,
  joinHeights,
  type MovingModel,
  modelAt,
  tableHeights,
} from './height-table.js';
export {
  type LaminateJoint,
  type Lens,
  laminateBrief,
  laminateCheck,
  laminateHost,
  type Pocket,
  type Slot,
} from './laminate/index.js';
export { leftBeyond } from './left-beyond.js';
export {
  cureLoad,
  type LoadCase,
  type LoadDefinition,
  type LoadName,
  type LoadSizes,
  type Loads,
  pressureLoad,
} from './load.js';
export { decodeModel, encodeModel } from './model-bytes.js';
export { aroundChannel, type PlaceDefinition, type PointStrength, type SectionPoint, type ZoneName } from './place.js';
export { type ByFields, type PlaceMaps, plainMaps } from './place-maps.js';
export {
  type PlateHost,
  plateBrief,
  plateCheck,
  plateHost,
  plateTriangles,
  reducePlate,
  solvePlate,
} from './plate/index.js';
export { bonded, delaminating, splitting } from './point-strength.js';
export {
  type ContourData,
  type EdgeFieldsOfDegree,
  edgePart,
  type FinerFields,
  finerModel,
  isMirrored,
  lowerModel,
  type ReducedLoad,
  type ReducedModel,
  reducedModelVersion,
} from './reduced-model.js';
export {
  hostKind,
  hostKinds,
  hostLoads,
  hostOf,
  isEdge,
  isHostLoaded,
  isInterface,
  loadAllHosts,
  loadHost,
  loadHostOfBrief,
  loadsOf,
  modelBorder,
  placeLabel,
  registerHost,
  splitsAt,
} from './registry.js';
export {
  type CurveForce,
  type CurveSupport,
  type MeshText,
  type SectionJoint,
  type SurfaceMaterial,
  sectionBrief,
  sectionCheck,
  sectionHost,
} from './section/index.js';
export {
  directionInSection,
  type HostShape,
  placeInSection,
  type ShapeArc,
  type ShapeBox,
  type ShapeFrame,
  type ShapeLayer,
  type ShapePart,
  type ShapePath,
  type ShapePoint,
  type ShapeStep,
  shapeInSection,
} from './shape.js';
export {
  contourBorder,
  controlContour,
  fillerTeeBrief,
  fillerTeeHost,
  type KnownOutline,
  proveTee,
  reduceTee,
  solveTee,
  type TeeJoint,
  type TeePocket,
  teeBrief,
  teeCheck,
  teeFamilies,
  teeFillerBorder,
  teeHost,
  teeTriangles,
} from './tee/index.js';
