export { caution } from './caution.js';
export { timesText } from './times.js';
