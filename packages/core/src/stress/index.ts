export { createStressModel, type EdgeStress, type StressModel } from './stress-model.js';
