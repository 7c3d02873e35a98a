import {
  accessSync,
  closeSync,
  constants,
  fsyncSync,
  openSync,
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

/** Puts a file in place in one step, also among processes and threads that write the same one. */
export function replaceFile(path: string, content: string | Uint8Array): void {
  const temporary = join(dirname(path), `.${basename(path).slice(0, 100)}.${process.pid}-${threadId}.tmp`);
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
