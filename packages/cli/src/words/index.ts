export { caution } from './caution.js';
export { clarityText, startText } from './failure.js';
export { timesText } from './times.js';
