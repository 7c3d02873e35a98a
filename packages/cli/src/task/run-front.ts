import { type ResolvedBrief, UnmetError } from '@lumenfront/core';
import { findFront } from '@lumenfront/optimizer';
import type { DesignDocument, FrontDocument } from './documents.js';
import { describeNearest } from './nearest.js';
import { type RunOptions, withSession } from './session.js';

/**
 * Searches the front of a brief.
 *
 * @throws UnmetError if no channel keeps the constraints, with the one that is missed and by how much
 */
export async function runFront(brief: ResolvedBrief, options: RunOptions): Promise<FrontDocument> {
  return withSession(brief, options, async ({ task, common, evaluator, search, design }) => {
    const found = await findFront(task, evaluator, search);
    if (found.designs.length === 0) throw new UnmetError(describeNearest(brief, found.nearest));
    const { evaluations, runs, hypervolume, referencePoint } = found;
    return {
      designs: undominated(found.designs.map(design)),
      families: Object.fromEntries(
        Object.entries(found.families).map(([name, members]) => [name, undominated(members.map(design))]),
      ),
      ...common,
      search: { seed: search.seed, evaluations, hypervolume, referencePoint, runs },
    };
  });
}

/** Evaluated again, a design can turn out no better than a larger one. By growing area. */
function undominated(designs: readonly DesignDocument[]): DesignDocument[] {
  let least = Number.POSITIVE_INFINITY;
  return [...designs]
    .sort((a, b) => b.area - a.area || a.peak - b.peak)
    .filter(({ peak }) => {
      const kept = peak < least;
      least = Math.min(least, peak);
      return kept;
    })
    .reverse();
}
