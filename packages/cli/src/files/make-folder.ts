import { accessSync, constants, existsSync, mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
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
    if (code !== 'EEXIST' && code !== 'ENOTDIR')
      throw writeRefusal(path, code === 'ENOENT' ? reasonOf(path, error) : error);
    throw new InputError({
      path,
      expected: 'the name of a folder',
      received: 'a file of that name, or a path that leads through a file',
      remedy: 'choose another name',
    });
  }
}

/** What stands in the way of a folder: some systems say of a place that is for reading only that it is not there. */
function reasonOf(path: string, error: unknown): unknown {
  let nearest = dirname(path);
  while (!existsSync(nearest) && dirname(nearest) !== nearest) nearest = dirname(nearest);
  try {
    accessSync(nearest, constants.W_OK);
    return error;
  } catch (reason) {
    return reason;
  }
}
