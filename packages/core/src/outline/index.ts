export { createFamily, familyNames } from './create-family.js';
export type { Border, Curve, OutlineData, OutlineFamily, OutlineParameter, OutlineRoom } from './family.js';
export { type Circle, largestInscribedCircle } from './inscribed-circle.js';
export { createOutlineMeasure, measureOutline, type OutlineMeasure } from './measure.js';
export { curveNodesNeeded, nodesNeeded } from './node-rule.js';
export { type CurveNodes, createCurveNodes, nodeParameter } from './nodes.js';
export { outlineOf } from './outline-of.js';
export { fitPoints } from './points.js';
export { checkRoundedFiller, inscribedRadius, type RoundedFiller, roundedFiller } from './rounded-filler.js';
