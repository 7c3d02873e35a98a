export * from './brief/index.js';
export { describeProblem, InputError, type InputProblem, UnmetError } from './errors.js';
export * from './host/index.js';
export * from './joint/index.js';
export * from './outline/index.js';
export * from './stress/index.js';
