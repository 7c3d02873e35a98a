import {
  accessSync,
  closeSync,
  constants,
  fsyncSync,
  openSync,
  readdirSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { threadId } from 'node:worker_threads';
import { InputError } from '@lumenfront/core';

/**
 * Refuses a place where `writeTextFile` could not write, before a long work whose result is to go there.
 *
 * @param force whether an existing file may be replaced
 * @throws InputError
 */
export function checkTarget(path: string, options: { readonly force: boolean }): void {
  const refuse = (expected: string, received: string, remedy: string) =>
    new InputError({ path, expected, received, remedy });
  try {
    const status = statSync(path, { throwIfNoEntry: false });
    if (status?.isDirectory()) throw refuse('the name of a file', 'a folder', 'name a file in it');
    if (status?.isFile() && !options.force)
      throw refuse(
        'a file that does not exist yet',
        'an existing file',
        'choose another name, or replace it with --force',
      );
    if (status === undefined) accessSync(dirname(path), constants.W_OK);
  } catch (error) {
    throw writeRefusal(path, error);
  }
}

/**
 * Writes a text file by way of a temporary one beside it, so that a reader, or a run that is stopped, never meets half
 * a file. Pipes and devices are written directly.
 *
 * @param force whether an existing file may be replaced
 * @throws InputError if the file exists (without `force`) or cannot be written
 */
export function writeTextFile(path: string, text: string, options: { readonly force: boolean }): void {
  checkTarget(path, options);
  try {
    const status = statSync(path, { throwIfNoEntry: false });
    if (status !== undefined && !status.isFile()) writeFileSync(path, text);
    else replaceFile(status === undefined ? path : realpathSync(path), text);
  } catch (error) {
    throw writeRefusal(path, error);
  }
}

/** What a user can do about a write that failed; any other error as it is. */
export function writeRefusal(path: string, error: unknown): unknown {
  const refuse = (expected: string, received: string, remedy: string) =>
    new InputError({ path, expected, received, remedy });
  const code = (error as NodeJS.ErrnoException).code;
  if (code === 'ENOENT' || code === 'ENOTDIR')
    return refuse('a file in an existing folder', 'no such folder', 'create the folder first');
  if (code === 'EACCES' || code === 'EPERM' || code === 'EROFS')
    return refuse('a place that you may write to', 'no permission', 'choose another folder');
  if (code === 'ENOSPC' || code === 'EDQUOT') return refuse('room on the disk', 'a full disk', 'make room');
  return error;
}

/** No write takes so long: what is older was left by one that was killed, ms. */
const abandoned = 3600_000;

/** Names of the files that writing `path` goes by: `.NAME.PROCESS-THREAD.tmp`. */
const temporaryStart = (path: string) => `.${basename(path).slice(0, 100)}.`;
const temporaryEnd = /^\d+-\d+\.tmp$/;

/**
 * Puts a file in place in one step, also among processes and threads that write the same one. Clears away what killed ones
 * left of it.
 */
export function replaceFile(path: string, content: string | Uint8Array): void {
  clearTemporaries(dirname(path), temporaryStart(path));
  const temporary = join(dirname(path), `${temporaryStart(path)}${process.pid}-${threadId}.tmp`);
  try {
    const file = openSync(temporary, 'w');
    try {
      writeFileSync(file, content);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(temporary, path);
  } catch (error) {
    rmSync(temporary, { force: true });
    throw error;
  }
}

/** Removes temporary files that killed writes left in a folder, of names that begin with `start`; no harm if it cannot. */
export function clearTemporaries(folder: string, start = '.'): void {
  try {
    for (const name of readdirSync(folder)) {
      if (!name.startsWith(start) || !temporaryEnd.test(name.slice(name.lastIndexOf('.', name.length - 5) + 1)))
        continue;
      const path = join(folder, name);
      if (Date.now() - statSync(path).mtimeMs > abandoned) rmSync(path, { force: true });
    }
  } catch {
    // Another one clears as well, or there is no right to: the write itself will tell.
  }
}
