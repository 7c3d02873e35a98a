import { dirname, resolve } from 'node:path';
import { readTextFile } from './read-text.js';

/** Longest file that a brief may name. */
const limit = 32 * 1024 * 1024;

/** Texts of the files that a brief names: beside it, or beside nothing, in the current folder. */
export function textsBeside(brief: string | undefined): (file: string) => string {
  const folder = brief === undefined ? '.' : dirname(brief);
  return (file) => readTextFile(resolve(folder, file), { what: 'a mesh', limit });
}
