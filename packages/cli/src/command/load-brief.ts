import { briefSizeLimit, type ResolvedBrief, readBrief, starterBrief } from '@lumenfront/core';
import { readTextFile, textsBeside } from '../files/index.js';

/**
 * The brief of a file, or the starter brief without one; `seed` overrides the seed of its search.
 *
 * @throws InputError if there is no such file, or if it holds no sound brief
 */
export async function loadBrief(
  file: string | undefined,
  options: { readonly seed?: number } = {},
): Promise<ResolvedBrief> {
  const brief =
    file === undefined
      ? await readBrief(starterBrief, { file: 'starter brief' })
      : await readBrief(readTextFile(file, { what: 'a brief', limit: briefSizeLimit }), {
          file,
          textOf: textsBeside(file),
        });
  return options.seed === undefined ? brief : { ...brief, search: { ...brief.search, seed: options.seed } };
}
