export { type ContactSheetRequest, contactSheet, type SheetDesign } from './contact-sheet.js';
export {
  type FrontAxes,
  type FrontPictureRequest,
  type FrontPoint,
  frontAxisTitle,
  frontFigures,
  frontPicture,
  frontPlace,
} from './front.js';
export { type EdgeStress, type FirstFailure, type JointPictureRequest, jointPicture } from './joint.js';
export type { Point } from './point.js';
export { type Place, type SeriesPictureRequest, seriesPicture } from './series.js';
export { layerShades, stressRamp } from './shade.js';
