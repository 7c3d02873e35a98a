export * from './channel/index.js';
export * from './front/index.js';
export * from './method/index.js';
export * from './problem.js';
export { type Random, type RandomState, randomFrom, restoreRandom } from './random.js';
export * from './scatter/index.js';
export * from './study/index.js';
