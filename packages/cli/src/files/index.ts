export { readTextFile } from './read-text.js';
export { replaceFile, writeTextFile } from './write-text.js';
