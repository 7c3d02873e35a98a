export { type CondenseOptions, condenseTee, type HalfRequest } from './condense.js';
export type { CondensedHalf, CondensedHost } from './condensed.js';
export { type ControlContour, controlContour } from './contour.js';
export { modelBorder } from './model-border.js';
export { reducePlate } from './reduce-plate.js';
export { reduceTee, usualDegree } from './reduce-tee.js';
export { type ReducedLoad, type ReducedModel, reducedModelVersion } from './reduced-model.js';
export type { SectionPoint } from './section-points.js';
