export { addEntry, createCyclicBand, solveCyclicBand } from './cyclic-band.js';
export { multiply } from './dense.js';
export type { ElementTopology } from './dissection.js';
export { eliminate } from './eliminate.js';
export { type ElementMatrices, type Factor, type FactorOptions, factorize } from './factor.js';
export { createGmres, type GmresResult } from './gmres.js';
export { gauss2, gauss3, gauss4, gauss5, onUnitInterval } from './quadrature.js';
export { type TrigonometricRule, trigonometricRule } from './trigonometric.js';
