export { toCsv } from './csv.js';
export { type Extent, type OutlineSample, type OutlineSampler, polygonExtent } from './curve.js';
export { DEFAULT_CHORD_ERROR, type Drawing, type DrawingRequest, prepareDrawing } from './drawing.js';
export { type DxfCurve, toDxf } from './dxf.js';
export type { BendShape } from './section.js';
export { chainPath, fillerPath, toSvg } from './svg.js';
