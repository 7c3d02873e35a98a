import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { InputError } from '@lumenfront/core';

const remedies: Readonly<Record<string, readonly [received: string, remedy: string]>> = {
  ENOENT: ['no such file', 'check the name and the folder you are in'],
  ENOTDIR: ['no such file: part of the path is a file, not a folder', 'check the path'],
  EACCES: ['a file that you may not read', 'change its permissions, or copy it to a place of your own'],
  EPERM: ['a file that you may not read', 'change its permissions, or copy it to a place of your own'],
  EISDIR: ['a folder', 'name a file in it'],
  ENAMETOOLONG: ['a name that is too long', 'give the name of a file, not its content'],
  ELOOP: ['a link that leads back to itself', 'repair the link'],
};

/**
 * Reads a text file in UTF-8 of at most `limit` bytes; a larger one is refused unread, an endless one after `limit` bytes.
 *
 * @param what in words, for messages: `a brief`
 * @throws InputError if there is no such text
 */
export function readTextFile(path: string, options: { readonly what: string; readonly limit: number }): string {
  const { what, limit } = options;
  const refuse = (received: string, remedy: string) => {
    const expected = `${what}, a readable text file of at most ${megabytes(limit)} MiB`;
    return new InputError({ path, expected, received, remedy });
  };
  let bytes: Uint8Array;
  try {
    bytes = readBytes(path, limit, refuse);
  } catch (error) {
    const [received, remedy] = remedies[(error as NodeJS.ErrnoException).code ?? ''] ?? [];
    if (received === undefined || remedy === undefined) throw error;
    throw refuse(received, remedy);
  }
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff))
    throw refuse('text in UTF-16', 'save it as UTF-8');
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw refuse('bytes that are not UTF-8', 'save it as plain text in UTF-8');
  }
}

const megabytes = (bytes: number) => Number((bytes / 1024 / 1024).toPrecision(3));

function readBytes(path: string, limit: number, refuse: (received: string, remedy: string) => InputError): Uint8Array {
  const file = openSync(path, 'r');
  try {
    const status = fstatSync(file);
    if (status.isDirectory()) throw refuse('a folder', 'name a file in it');
    if (status.size > limit) throw refuse(`a file of ${megabytes(status.size)} MiB`, 'check that it is the right file');
    // Pipes and devices have no size: read until the end or the limit.
    const buffer = new Uint8Array(Math.min(limit, status.isFile() ? status.size : limit) + 1);
    let length = 0;
    while (length < buffer.length) {
      const read = readSync(file, buffer, length, buffer.length - length, null);
      if (read === 0) return buffer.subarray(0, length);
      length += read;
    }
    if (length > limit) throw refuse(`more than ${megabytes(limit)} MiB`, 'check that it is the right file');
    return buffer.subarray(0, length);
  } finally {
    closeSync(file);
  }
}
