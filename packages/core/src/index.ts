export * from './brief/index.js';
export { describeProblem, InputError, type InputProblem, UnmetError } from './errors.js';
