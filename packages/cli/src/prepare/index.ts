export { readModel, writeModel } from './model-cache.js';
export { prepareTask } from './prepare-task.js';
