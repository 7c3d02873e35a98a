import { type ChannelTask, createTask, hostOf, type ResolvedBrief } from '@lumenfront/core';
import { cacheFolder } from './cache-folder.js';
import { modelKey, readModel, writeModel } from './model-cache.js';
import { reduceHeights } from './reduce-heights.js';

/**
 * All that judging channels of a brief needs. The joint is solved, or its reduced model taken from the cache on disk
 * where the same joint was solved before.
 *
 * @param note is told what the cache did
 * @param folder of the cache; empty: none
 */
export function prepareTask(brief: ResolvedBrief, note: (text: string) => void, folder = cacheFolder()): ChannelTask {
  // What is not condensed takes longer to read than to solve.
  if (folder === '' || !hostOf(brief.joint).condensed) return createTask(brief, reduceHeights(brief));
  const key = modelKey(brief);
  const known = readModel(folder, key, note);
  if (known !== undefined) {
    note(`joint solved before: reduced model taken from ${folder}`);
    return createTask(brief, known);
  }
  const model = reduceHeights(brief);
  writeModel(folder, key, model);
  return createTask(brief, model);
}
