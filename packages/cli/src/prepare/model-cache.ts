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
import { replaceFile } from '../files/index.js';

const ending = '.model';

/** Models that are kept: the last ones used. */
const mostModels = 200;

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

/** Puts a model into the cache and throws out those longest unused. Does nothing where the cache cannot be written. */
export function writeModel(folder: string, key: string, model: ReducedModel): void {
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    replaceFile(join(folder, key + ending), encodeModel(key, model));
    trim(folder);
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

function trim(folder: string): void {
  const models = readdirSync(folder).filter((name) => name.endsWith(ending));
  if (models.length <= mostModels) return;
  const byAge = models
    .map((name) => ({ path: join(folder, name), used: statSync(join(folder, name)).mtimeMs }))
    .sort((a, b) => b.used - a.used);
  for (const { path } of byAge.slice(mostModels)) rmSync(path, { force: true });
}
