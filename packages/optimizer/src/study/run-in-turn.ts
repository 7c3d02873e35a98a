import { type FrontDocument, type PickDocument, type ResolvedBrief, UnmetError } from '@lumenfront/core';
import type { RunOptions } from './session.js';

/** What one of several searches came to: its result, or by what it was missed. */
export interface Outcome<Result> {
  readonly brief: ResolvedBrief;
  readonly evaluations: number;
  readonly found: Result | UnmetError;
}

/** Runs one search after the other, their progress as that of one. Called off, it gives those that have begun. */
export async function runInTurn<Result extends FrontDocument | PickDocument>(
  run: (brief: ResolvedBrief, options: RunOptions) => Promise<Result>,
  briefs: readonly ResolvedBrief[],
  options: RunOptions,
): Promise<Outcome<Result>[]> {
  const { onProgress, signal } = options;
  const outcomes: Outcome<Result>[] = [];
  let before = 0;
  for (const brief of briefs) {
    let spent = 0;
    const found = await run(brief, {
      ...options,
      onProgress(progress) {
        spent = progress.evaluations;
        onProgress?.({ ...progress, evaluations: before + spent });
      },
    }).catch((error: unknown) => {
      if (error instanceof UnmetError) return error;
      throw error;
    });
    const evaluations = found instanceof UnmetError ? spent : found.search.evaluations;
    outcomes.push({ brief, evaluations, found });
    before += evaluations;
    if (signal?.aborted) break;
  }
  return outcomes;
}
