import { type DesignDocument, type LoadByItself, type ResolvedBrief, UnmetError } from '@lumenfront/core';
import { costOf, meets, sizeOf } from './objective.js';
import { runFront } from './run-front.js';
import type { RunOptions } from './session.js';

/**
 * Which outline each load of a brief asks for where it acts by itself, at its given size: a front for each, with the same seed and as many evaluations. Called off, it gives
 * those that have begun.
 */
export async function runEachLoad(brief: ResolvedBrief, options: RunOptions): Promise<LoadByItself[]> {
  const { onProgress } = options;
  const found: LoadByItself[] = [];
  let before = 0;
  for (const load of Object.keys(brief.loads)) {
    options.workplace.note(`load ${found.length + 1} of ${Object.keys(brief.loads).length}: ${load} by itself`);
    let evaluations = 0;
    const alone = { ...brief, cases: [{ name: load, factors: { [load]: 1 } }] };
    try {
      const { designs, allow, search } = await runFront(alone, {
        ...options,
        onProgress(progress) {
          evaluations = progress.evaluations;
          onProgress?.({ ...progress, evaluations: before + evaluations });
        },
      });
      found.push({ load, ...endsOf(designs, allow, brief), evaluations: search.evaluations });
    } catch (error) {
      if (!(error instanceof UnmetError)) throw error;
      found.push({ load, evaluations, unmet: error.message });
    }
    before += evaluations;
    if (options.signal?.aborted) break;
  }
  return found;
}

function endsOf(
  designs: readonly DesignDocument[],
  allow: number,
  { search: { objective } }: ResolvedBrief,
): Pick<LoadByItself, 'leastCost' | 'largest'> {
  const best = (list: readonly DesignDocument[], of: (one: DesignDocument) => number) =>
    list.reduce<DesignDocument | undefined>((a, b) => (a === undefined || of(b) < of(a) ? b : a), undefined);
  const leastCost = best(designs, (one) => costOf(objective, one));
  const largest = best(
    designs.filter((one) => meets(one, allow, objective)),
    (one) => -sizeOf(objective, one),
  );
  return { ...(leastCost === undefined ? {} : { leastCost }), ...(largest === undefined ? {} : { largest }) };
}
