export { prepareTask } from './prepare-task.js';
