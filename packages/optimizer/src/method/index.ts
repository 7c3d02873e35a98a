export { firstEdges } from './first-edges.js';
export { Genetic, type GeneticOptions } from './genetic/genetic.js';
export { type Goal, goalSpace, towards } from './goal.js';
export { linearProgram } from './linear-program.js';
export { Minimax, type MinimaxOptions, type Profile } from './minimax.js';
export { type MinimiseOptions, minimise, minimiseAsync, type Outcome } from './minimise.js';
export {
  NelderMead,
  type NelderMeadOptions,
} from './nelder-mead.js';
export { Polish, type PolishOptions, type PolishStart } from './polish.js';
export { type ProgramRows, quadraticProgram } from './quadratic-program.js';
export {
  type AbortFlag,
  aborted,
  evaluationBudget,
  frontStalled,
  type StallOptions,
  type StoppingRule,
  targetReached,
} from './stopping.js';
export { nelderMead } from './whole-run.js';
