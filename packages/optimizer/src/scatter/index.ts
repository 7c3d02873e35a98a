export { findScatterFront, type ScatteredChannel, type ScatterFront, type ScatterFrontOptions } from './front.js';
export { type Deviation, deviate, deviateNodes } from './perturb.js';
export { roomForScatter, withRoomForScatter } from './scatter.js';
export type { Spread } from './spread.js';
export { type ScatterStudy, studyScatter } from './study.js';
