export { clarityText, startText } from './failure.js';
export { repairedPlaces, repairNotes } from './repair.js';
export { timesText } from './times.js';
