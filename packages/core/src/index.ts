export { describeProblem, InputError, type InputProblem, UnmetError } from './errors.js';
