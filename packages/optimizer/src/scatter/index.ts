export { type Deviation, deviate } from './perturb.js';
export { type Scatter, type ScatterStudy, type Spread, studyScatter } from './study.js';
