export { createFamily, familyNames } from './create-family.js';
export type { Border, OutlineData, OutlineFamily, OutlineParameter, OutlineRoom } from './family.js';
export { createOutlineMeasure, measureOutline, type OutlineMeasure } from './measure.js';
export { nodesNeeded } from './node-rule.js';
export { type CurveNodes, createCurveNodes, nodeParameter } from './nodes.js';
export { type RoundedFiller, roundedFiller } from './rounded-filler.js';
