import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, rmSync, statSync, utimesSync } from 'node:fs';
import { join } from 'node:path';
import {
  canonicalHost,
  decodeModel,
  encodeModel,
  InputError,
  type ReducedModel,
  type ResolvedBrief,
  reducedModelVersion,
} from '@lumenfront/core';
import { clearTemporaries, replaceFile } from '../files/index.js';

const ending = '.model';

/** Bytes of models that are kept, the last ones used: some fifty joints. */
const mostBytes = 256 * 1024 * 1024;

/** What fixes a reduced model: joint, contour, and the code that makes it. */
export function modelKey(brief: ResolvedBrief): string {
  return createHash('sha256')
    .update(`${reducedModelVersion} ${canonicalHost(brief)}`)
    .digest('hex');
}

/**
 * The reduced model of `key` from the cache. A file that is damaged or foreign counts as none, and is said.
 * A cache that cannot be read is no cache: whatever is wrong there, the model can be made again.
 */
export function readModel(folder: string, key: string, note: (text: string) => void): ReducedModel | undefined {
  const path = join(folder, key + ending);
  let bytes: Uint8Array;
  try {
    bytes = readFileSync(path);
  } catch {
    return undefined;
  }
  try {
    const model = decodeModel(key, bytes);
    touch(path);
    return model;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    note(`note: ${path} is damaged; the joint is solved again`);
    return undefined;
  }
}

/**
 * Puts a model into the cache and throws out those longest unused, beyond `atMost` bytes together. Does nothing where the cache
 * cannot be written.
 */
export function writeModel(folder: string, key: string, model: ReducedModel, atMost = mostBytes): void {
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    replaceFile(join(folder, key + ending), encodeModel(key, model));
    trim(folder, atMost);
  } catch {
    // No right, no room, or another process that trims as well: the model is made again next time.
  }
}

function touch(path: string): void {
  try {
    const now = new Date();
    utimesSync(path, now, now);
  } catch {
    // A cache for reading only serves as well.
  }
}

function trim(folder: string, atMost: number): void {
  clearTemporaries(folder);
  const byUse = readdirSync(folder)
    .filter((name) => name.endsWith(ending))
    .map((name) => join(folder, name))
    .map((path) => ({ path, status: statSync(path) }))
    .sort((a, b) => b.status.mtimeMs - a.status.mtimeMs);
  let bytes = 0;
  for (const { path, status } of byUse) {
    bytes += status.size;
    if (bytes > atMost) rmSync(path, { force: true });
  }
}
