export { clarityText, startText } from './failure.js';
export { knownEdgeText } from './known-edge.js';
export { repairedPlaces, repairNotes } from './repair.js';
export { timesText } from './times.js';
