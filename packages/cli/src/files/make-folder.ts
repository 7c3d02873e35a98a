import { mkdirSync } from 'node:fs';
import { InputError } from '@lumenfront/core';
import { writeRefusal } from './write-text.js';

/**
 * Makes a folder, and those around it, where there is none.
 *
 * @throws InputError if it cannot be made
 */
export function makeFolder(path: string): void {
  try {
    mkdirSync(path, { recursive: true });
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code !== 'EEXIST' && code !== 'ENOTDIR') throw writeRefusal(path, error);
    throw new InputError({
      path,
      expected: 'the name of a folder',
      received: 'a file of that name, or a path that leads through a file',
      remedy: 'choose another name',
    });
  }
}
