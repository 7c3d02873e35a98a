export { type ContactSheetRequest, contactSheet, type SheetDesign } from './contact-sheet.js';
export { type FrontPictureRequest, type FrontPoint, familySign, frontPicture } from './front.js';
export { type EdgeStress, type FirstFailure, type JointPictureRequest, jointPicture } from './joint.js';
export type { Point } from './point.js';
export type { SectionLayer, SectionShape } from './section.js';
export { type Place, type SeriesPictureRequest, seriesPicture } from './series.js';
export { stressRamp } from './shade.js';
