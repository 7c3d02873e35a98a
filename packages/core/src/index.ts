export * from './brief/index.js';
export { describeProblem, InputError, type InputProblem, UnmetError } from './errors.js';
export * from './flow/index.js';
export * from './host/index.js';
export * from './joint/index.js';
export * from './material/index.js';
export * from './outline/index.js';
export type { Quantities, Quantity } from './quantity.js';
export * from './stress/index.js';
