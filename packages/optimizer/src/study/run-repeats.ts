import type { FrontDocument, RepeatsDocument, ResolvedBrief } from '@lumenfront/core';
import { hypervolume } from '../front/index.js';
import { costOf, sizeOf } from './objective.js';
import { runFront } from './run-front.js';
import type { RunOptions } from './session.js';

/**
 * Searches the front of a brief so many times, with its seed and those that follow, to tell what chance does to it. The result
 * is the front of the brief's own seed, with the spread over all of them.
 */
export async function runRepeats(brief: ResolvedBrief, repeats: number, options: RunOptions): Promise<FrontDocument> {
  const { onProgress } = options;
  const fronts: FrontDocument[] = [];
  let before = 0;
  for (let k = 0; k < repeats; k++) {
    const search = { ...brief.search, seed: brief.search.seed + k };
    const front = await runFront(
      { ...brief, search },
      {
        ...options,
        onProgress: ({ evaluations, designs }) => onProgress?.({ evaluations: before + evaluations, designs }),
      },
    );
    before += front.search.evaluations;
    fronts.push(front);
  }
  const front = fronts[0]!;
  return { ...front, search: { ...front.search, repeats: spreadOf(fronts) } };
}

/** Hypervolumes are comparable only against one reference point: the widest of the fronts'. */
function spreadOf(fronts: readonly FrontDocument[]): RepeatsDocument {
  const cost = Math.max(...fronts.map(({ search }) => search.referencePoint[1]));
  const seeds = fronts.map(({ designs, search: { seed, objective } }) => ({
    seed,
    hypervolume: hypervolume(
      designs.map((design) => [-sizeOf(objective, design), costOf(objective, design)]),
      [0, cost],
    ),
  }));
  const sorted = seeds.map((one) => one.hypervolume).sort((a, b) => a - b);
  const middle = (sorted.length - 1) / 2;
  const median = (sorted[Math.floor(middle)]! + sorted[Math.ceil(middle)]!) / 2;
  return { referencePoint: [0, cost], seeds, least: sorted[0]!, median, most: sorted.at(-1)! };
}
