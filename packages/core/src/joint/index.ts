export { contourBorder, fillerArea, plateBorder, teeFillerBorder } from './border.js';
export type { Joint, LoadCase, LoadName, Loads, PlateHost, TeeJoint } from './tee.js';
