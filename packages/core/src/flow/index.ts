export { type Conductance, type ConductanceSolver, createConductance } from './conductance.js';
