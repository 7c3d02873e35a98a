export { readTextFile } from './read-text.js';
export { writeTextFile } from './write-text.js';
