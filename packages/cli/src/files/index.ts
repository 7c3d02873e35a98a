export { isJsonObject, type JsonObject, readJsonFile } from './json-file.js';
export { makeFolder } from './make-folder.js';
export { readTextFile } from './read-text.js';
export { textsBeside } from './text-beside.js';
export { checkTarget, clearTemporaries, replaceFile, writeRefusal, writeTextFile } from './write-text.js';
