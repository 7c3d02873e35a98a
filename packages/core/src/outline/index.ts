export { byCount } from './by-count.js';
export { centredFamily } from './centred.js';
export { type ChannelChoice, channelIn } from './channel-in.js';
export { createFamily, familyNames } from './create-family.js';
export { type CurvatureOutline, curvatureOutline } from './curvature.js';
export {
  type CurvatureDesign,
  curvatureFamily,
  curvatureParameters,
  curvatureUnit,
  isCurvature,
} from './curvature-data.js';
export type { CurvatureForm } from './curvature-splines.js';
export type { NodeSpacing } from './density.js';
export { distanceOutside, distanceToOutline } from './distance.js';
export { ellipseFamily } from './ellipse.js';
export type { Border, Curve, OutlineData, OutlineFamily, OutlineParameter, OutlineRoom } from './family.js';
export { type CurvatureFit, fitCurvature } from './fit-curvature.js';
export { type Circle, largestInscribedCircle } from './inscribed-circle.js';
export { createOutlineMeasure, highestOf, lowestOf, measureOutline, type OutlineMeasure } from './measure.js';
export { areaRates, centroidRates, distanceRates } from './measure-rates.js';
export { type CurveRates, createCurveRates, type NodeRates, writeMirroredRates } from './node-rates.js';
export { curveNodesNeeded, nodeStep, nodesNeeded } from './node-rule.js';
export { type CurveNodes, createCurveNodes, nodeParameter } from './nodes.js';
export { outlineOf } from './outline-of.js';
export { lift, reflect, turnAndMove } from './placement.js';
export { fitPoints } from './points.js';
export {
  alone,
  type CopyPlace,
  copiesOfAll,
  hasMiddle,
  mirrorLines,
  movesMirrored,
  onRight,
  type PlacedChannel,
  placedChannels,
  placeOnCopy,
  placesOfOthers,
  type SideBySide,
  writeAll,
  writeCopy,
} from './side-by-side.js';
export { splineFamily } from './spline.js';
export { perCount } from './table.js';
export { teardropFamily } from './teardrop.js';
