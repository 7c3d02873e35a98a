export { type CopyMove, copyMove } from './copy-move.js';
export { roundedPoints, toCsv } from './csv.js';
export { type Extent, type OutlineSample, type OutlineSampler, polygonExtent } from './curve.js';
export { DEFAULT_CHORD_ERROR, type Drawing, type DrawingRequest, outlinesOf, prepareDrawing } from './drawing.js';
export { type DxfCurve, toDxf } from './dxf.js';
export { toMsh } from './msh.js';
export { type DrawingView, type DrawingWords, extentWords } from './sheet.js';
export { chainPath, toSvg } from './svg.js';
export { toVtu } from './vtu.js';
