export type { ElementTopology } from './dissection.js';
export { type ElementMatrices, type Factor, type FactorOptions, factorize } from './factor.js';
